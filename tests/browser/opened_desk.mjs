// A desk on the demo library and what its sheets of runs and of purity are tried with.
import { deskBrowser } from './desk_browser.mjs';

/// The page of a new desk, with all that it complained about or asked for elsewhere.
export async function openedDesk(cospot, modules) {
  const { page, heard, lab } = await (await deskBrowser(cospot, modules))();
  return { page, heard, lab, bench: new URL('/', page.url()).href };
}

/// A new sheet of this kind, from the bench.
export async function newSheet({ page, bench }, kind) {
  await page.goto(`${bench}#/`);
  await page.getByRole('button', { name: kind, exact: true }).click();
  await page.locator('.file-entry').first().waitFor();
}

/// The input for files of an entry.
export const files = (page, label) => page.locator('.file-entry').filter({ hasText: label }).first().locator('input[type=file]');

/// Drops a text file on an entry.
export async function drop(page, label, name, text) {
  await page.locator('.file-entry').filter({ hasText: label }).first().evaluate((entry, given) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([given.text], given.name));
    entry.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
  }, { name, text });
}

/// Types into the field with this label and leaves it.
export async function type(page, label, text) {
  await page.getByLabel(label).fill(text);
  await page.keyboard.press('Tab');
}

/// A recorded signal: Gaussian peaks of [minute, height, width at half height] on a baseline that drifts.
export function signal(peaks, { end, heading = 'time (min)\tsignal (mAU)' }) {
  const rows = [heading];
  for (let i = 0; i < end * 200; i += 1) {
    const time = i / 200;
    let value = 4 + 0.1 * time + 0.2 * Math.sin(i * 12.9898) * Math.cos(i * 78.233);
    for (const [at, height, width] of peaks) value += height * Math.exp(-(((time - at) / (width / 2.3548)) ** 2) / 2);
    rows.push(`${time.toFixed(4)}\t${value.toFixed(3)}`);
  }
  return `${rows.join('\n')}\n`;
}
