// Measures the desk in a browser: how soon the page of a library is painted, and how soon the
// candidates of a moved spot are there, beside a bare page and a bare call in the same run.
//   node bench_desk.mjs COSPOT LIBRARY FOLDER_OF_NODE_MODULES
// Prints one JSON object, times in milliseconds: medians of nine.
import { spawnSync } from 'node:child_process';
import { join, resolve } from 'node:path';
import { launchedChromium } from '../tests/browser/chromium.mjs';
import { newFolder, openDesk } from '../tests/browser/desk_program.mjs';

const [cospot, library, modules] = process.argv.slice(2);
const kRepeats = 9;

const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];

async function medianOf(measure) {
  const times = [];
  for (let i = 0; i < kRepeats; i += 1) times.push(await measure(i));
  return median(times);
}

const firstPaint = (page) => page.evaluate(() => new Promise((done) => {
  new PerformanceObserver((list) => list.getEntriesByName('first-contentful-paint').forEach((one) => done(one.startTime)))
    .observe({ type: 'paint', buffered: true });
}));

async function painted(context, address) {
  const page = await context.newPage();
  await page.goto(address);
  const time = await firstPaint(page);
  await page.close();
  return time;
}

/// From opening the page until the library's compounds stand in it.
async function listed(context, address) {
  const page = await context.newPage();
  const start = performance.now();
  await page.goto(address);
  await page.locator('.found tbody tr').first().waitFor();
  const time = performance.now() - start;
  await page.close();
  return time;
}

async function plateWithOneSpot(page, address) {
  await page.goto(address);
  await page.getByRole('button', { name: 'A plate' }).click();
  await page.locator('.given select').selectOption('silica-HEA41');
  await page.getByRole('button', { name: 'add a lane' }).click();
  await page.getByLabel('distances of the spots on lane 1, mm').fill('27');
  await page.keyboard.press('Tab');
  await page.locator('[data-spot="0-0"]').focus();
  await page.locator('.candidates').waitFor();
}

/// From the key that moves the spot until other candidates stand beside it.
const answerToKey = (page, key) => page.evaluate((name) => new Promise((done) => {
  const before = document.querySelector('.candidates').innerText;
  const start = performance.now();
  new MutationObserver((_, observer) => {
    const now = document.querySelector('.candidates')?.innerText;
    if (!now || now === before) return;
    observer.disconnect();
    done(performance.now() - start);
  }).observe(document.body, { childList: true, subtree: true, characterData: true });
  document.activeElement.dispatchEvent(new KeyboardEvent('keydown', { key: name, shiftKey: true, bubbles: true }));
}), key);

const browser = await launchedChromium(modules);
const context = await browser.newContext();
const large = await openDesk(cospot, resolve(library));
await (await context.newPage()).goto(large.address);
const lab = newFolder(cospot);
const small = await openDesk(cospot, lab.library);
const page = await context.newPage();
await plateWithOneSpot(page, small.address);

const place = `http://127.0.0.1:${large.port}/#/library`;
const bare = 'data:text/html,<h1>bare</h1>';
const figures = {
  desk_bare_paint_ms: await medianOf(() => painted(context, bare)),
  desk_paint_ms: await medianOf(() => painted(context, place)),
  desk_listed_ms: await medianOf(() => listed(context, place)),
  desk_moved_spot_ms: await medianOf((i) => answerToKey(page, i % 2 ? 'ArrowDown' : 'ArrowUp')),
  desk_bare_call_ms: await medianOf(() => {
    const start = performance.now();
    spawnSync(cospot, ['--library', lab.library, '--json', 'identify', join(lab.demo, 'plate.csv')], { stdio: ['ignore', 'pipe', 'ignore'] });
    return performance.now() - start;
  }),
};
figures.ratio_moved_spot = figures.desk_moved_spot_ms / figures.desk_bare_call_ms;
console.log(JSON.stringify(Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, Math.round(value * 100) / 100]))));
await browser.close();
await Promise.all([large.end(), small.end()]);
lab.clear();
