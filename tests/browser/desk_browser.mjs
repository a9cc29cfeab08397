// A browser before desks of invented libraries, for tests of their pages.
import assert from 'node:assert/strict';
import { after } from 'node:test';
import { launchedChromium } from './chromium.mjs';
import { newFolder, openDesk } from './desk_program.mjs';
import { faintTexts, overflowing } from './measures.mjs';

/// Launches a browser that ends with the tests; returns what opens a desk in it: lab, page, context, and
/// `heard`, what the page complained about or asked for elsewhere.
export async function deskBrowser(cospot, modules) {
  const browser = await launchedChromium(modules);
  const labs = [];
  after(async () => {
    await browser.close();
    for (const { desk, lab } of labs) {
      await desk.end();
      lab.clear();
    }
  });
  return async (options = {}) => {
    const lab = newFolder(cospot, options);
    const desk = await openDesk(cospot, lab.library);
    labs.push({ desk, lab });
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const page = await context.newPage();
    const heard = [];
    page.on('console', (message) => heard.push(message.text()));
    page.on('pageerror', (error) => heard.push(String(error)));
    page.on('request', (request) => {
      if (!/^(data:|http:\/\/127\.0\.0\.1:)/.test(request.url())) heard.push(request.url());
    });
    await page.goto(desk.address);
    return { lab, page, context, heard };
  };
}

/// A choice or field by the words above it.
export const labelled = (page, text) => page.locator('label.field').filter({ has: page.locator(`> span:text-is("${text}")`) }).locator('input, select, textarea').first();

/// Pastes a text into the field of tables, as the clipboard does.
export async function paste(page, text, place = '.paste') {
  await page.locator(place).first().evaluate((element, given) => {
    const clipboard = new DataTransfer();
    clipboard.setData('text/plain', given);
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData: clipboard, bubbles: true, cancelable: true }));
  }, text);
}

/// Nothing is wider than the window, and text stands out, in light and dark.
export async function looksRight(page) {
  for (const width of [1280, 390]) {
    await page.setViewportSize({ width, height: 900 });
    assert.deepEqual(await page.evaluate(overflowing), [], `${width} px`);
  }
  await page.setViewportSize({ width: 1280, height: 900 });
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    assert.deepEqual(await page.evaluate(faintTexts), [], colorScheme);
  }
  await page.emulateMedia({ colorScheme: 'light' });
}

/// Keeps the sheet; returns the printed page.
export async function keptPage({ page, context }) {
  await page.getByRole('button', { name: 'keep', exact: true }).click();
  const link = page.getByRole('link', { name: 'print' });
  await link.waitFor();
  const [printed] = await Promise.all([context.waitForEvent('page'), link.click()]);
  await printed.getByRole('heading', { level: 1 }).waitFor();
  return printed;
}
