// Opens the pages that --report writes in headless Chromium and measures what a reader sees.
//   node reports_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, suite, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { launchedChromium } from './chromium.mjs';
import { drawPages, hostileName } from './invented_laboratory.mjs';
import { faintTexts, overflowing, overlappingTexts } from './measures.mjs';

const [cospot, modules] = process.argv.slice(2);

const { folder, pages } = drawPages(cospot);
const browser = await launchedChromium(modules);
after(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** Shows what a reader sees whose browser runs no scripts. */
const unscripted = await (await browser.newContext({ javaScriptEnabled: false })).newPage();

/** A page with all that it complained about or asked for. */
async function opened(file, options = {}) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const heard = [];
  page.on('console', (message) => heard.push(message.text()));
  page.on('pageerror', (error) => heard.push(String(error)));
  page.on('request', (request) => {
    if (request.url() !== pathToFileURL(file).href && request.url() !== 'data:,') heard.push(request.url());
  });
  await page.goto(pathToFileURL(file).href);
  return { page, heard, close: () => context.close() };
}

for (const [name, file] of Object.entries(pages)) {
  suite(name, async () => {
    let page, heard, close; // opened once: a browser takes a second for it
    before(async () => ({ page, heard, close } = await opened(file)));
    after(() => close());

    test('no error, nothing from outside, nothing wider than the window', async () => {
      for (const width of [1280, 390]) {
        await page.setViewportSize({ width, height: 900 });
        assert.deepEqual(await page.evaluate(overflowing), [], `${width} px`);
        assert.deepEqual(await page.evaluate(overlappingTexts), [], `${width} px`);
      }
      assert.deepEqual(heard, []);
    });

    test('text stands out in light and dark', async () => {
      const papers = [];
      for (const colorScheme of ['light', 'dark']) {
        await page.emulateMedia({ colorScheme });
        assert.deepEqual(await page.evaluate(faintTexts), [], colorScheme);
        papers.push(await page.evaluate(() => getComputedStyle(document.body).backgroundColor));
      }
      assert.notEqual(papers[0], papers[1]);
    });

    test('complete without script', async () => {
      await unscripted.goto(pathToFileURL(file).href);
      const [text, still] = await Promise.all([page, unscripted].map(async (each) =>
        (await each.locator('body').innerText()).replace(/\s+/g, ' ')));
      assert.match(text, /Retention alone is no proof of identity/);
      assert.match(text, /SHA-256 [0-9a-f]{64}/);
      assert.equal(still, text);
    });

    test('headings, tables and pictures say what they are', async () => {
      assert.equal(await page.locator('html').getAttribute('lang'), 'en');
      assert.equal(await page.locator('h1').count(), 1);
      assert.equal(await page.locator('th:not([scope])').count(), 0);
      assert.equal(await page.locator('svg[role]:not(:has(> title))').count(), 0);
      assert.equal(await page.locator('svg[role]:not(:has(> desc))').count(), 0);
    });

    test('prints on A4 and Letter, always on white', async () => {
      await page.emulateMedia({ colorScheme: 'dark' });
      const features = await page.locator('article').count();
      const rows = await page.locator('table.sortable tbody tr').count();
      for (const format of name === 'plate' ? ['A4', 'Letter'] : ['A4']) {
        const printed = join(folder, `${name}-${format}.pdf`);
        writeFileSync(printed, await page.pdf({ format }));
        const text = execFileSync('pdftotext', [printed, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });
        const sheets = text.split('\f').slice(0, -1);
        assert.ok(sheets.length >= 1 && sheets.length <= 4 + features + rows / 15, `${sheets.length} sheets of ${format}`);
        sheets.forEach((sheet, i) => assert.ok(sheet.trim().length > 20, `${format}, sheet ${i + 1} is empty`));
      }
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), 'rgb(255, 255, 255)');
    });
  });
}

test('the picture of the plate has twelve lanes and a label for each spot', async () => {
  const { page, close } = await opened(pages.plate);
  assert.equal(await page.locator('svg.plate text.lane').count(), 12);
  assert.equal(await page.locator('svg.plate .mark text.label').count(), 56);
  await close();
});

test('the run of 150 peaks labels many of them, and has an axis of indices', async () => {
  const { page, close } = await opened(pages.run);
  assert.equal(await page.locator('svg.chromatogram .peak').count(), 150);
  assert.ok(await page.locator('svg.chromatogram text.label').count() > 75);
  assert.match(await page.locator('svg.chromatogram').textContent(), /retention index/);
  await close();
});

test('a recorded trace zooms by buttons and by keys, and goes back to the whole', async () => {
  const { page, close } = await opened(pages.recorded);
  const box = () => page.locator('svg.trace').getAttribute('viewBox');
  const whole = await box();
  await page.getByRole('button', { name: 'shorter time' }).click();
  const width = Number((await box()).split(' ')[2]);
  assert.ok(width < Number(whole.split(' ')[2]));
  const labels = page.locator('svg.chromatogram > .mark');
  const seen = () => labels.evaluateAll((all) => all.filter((one) => getComputedStyle(one).visibility === 'visible').length);
  assert.ok(await seen() < await labels.count(), 'what lies outside is hidden');
  await page.keyboard.press('ArrowUp');
  assert.ok(Number((await box()).split(' ')[3]) < Number(whole.split(' ')[3]));
  await page.keyboard.press('0');
  assert.equal(await seen(), await labels.count());
  assert.equal(Number((await box()).split(' ')[2]), Number(whole.split(' ')[2]));
  await close();
});

test('a column of 150 fractions shows each, and a cell lights up its row', async () => {
  const { page, close } = await opened(pages.fractions, { viewport: { width: 1280, height: 4000 } });
  const looked = await page.locator('table.sortable tbody tr').count();
  assert.ok(looked > 130);
  assert.equal(await page.locator('svg.fractions .mark').count(), looked);
  assert.ok(await page.locator('svg.fractions text.tick').count() > 10);
  await page.locator('svg.fractions .mark[data-key="25"] .state').hover();
  const row = page.locator('tr[data-key="25"]');
  assert.equal(await row.evaluate((element) => element.classList.contains('lit')), true);
  await close();
});

test('the window diagram names its worst pairs, and the best fraction stands inside', async () => {
  const { page, close } = await opened(pages.resolve);
  const diagram = page.locator('svg.windows');
  assert.match(await diagram.textContent(), /pair 1: /);
  assert.match(await diagram.textContent(), /best 0\.\d{3}: resolution/);
  assert.ok(await diagram.locator('rect.pair').count() > 1);
  await close();
  const one = await opened(pages.resolveOne);
  assert.equal(await one.page.locator('svg.windows').count(), 0);
  await one.close();
});

test('a distillation shows each peak but the solvent, boiling points above, and its curve', async () => {
  const { page, close } = await opened(pages.distil, { viewport: { width: 1280, height: 4000 } });
  assert.equal(await page.locator('svg.chromatogram .peak').count(), 100);
  assert.match(await page.locator('svg.chromatogram').textContent(), /boiling point, °C/);
  await page.locator('svg.distillation .mark[data-key="50"] ellipse').hover();
  const lit = await page.locator('tr.lit').allTextContents();
  assert.equal(lit.length, 1); // the peak of the same number stays dark
  assert.match(lit[0], /^50\.0/);
  await close();
});

test('a heading sorts by keyboard, and says so', async () => {
  const { page, close } = await opened(pages.run);
  const heading = page.locator('table.sortable th', { hasText: 'Unlisted' }).first();
  const column = await heading.evaluate((cell) => cell.cellIndex);
  const values = () => page.locator('table.sortable').first().evaluate((table, at) =>
    [...table.tBodies[0].rows].map((row) => Number(row.cells[at].dataset.value)), column);
  const rising = (await values()).sort((a, b) => a - b);
  await heading.locator('button').focus();
  await page.keyboard.press('Enter');
  assert.equal(await heading.getAttribute('aria-sort'), 'ascending');
  assert.deepEqual(await values(), rising);
  await page.keyboard.press('Space');
  assert.equal(await heading.getAttribute('aria-sort'), 'descending');
  assert.deepEqual(await values(), [...rising].reverse());
  await close();
});

test('a spot and its row light up together, by mouse and by keyboard', async () => {
  const { page, close } = await opened(pages.plate, { viewport: { width: 1280, height: 1600 } });
  const row = page.locator('tr[data-key="3"]');
  const mark = page.locator('svg.plate .mark[data-key="3"]');
  const isLit = (locator) => locator.evaluate((element) => element.classList.contains('lit'));
  assert.equal(await isLit(row), false);
  await mark.locator('ellipse').hover();
  assert.equal(await isLit(row), true);
  await row.hover();
  assert.equal(await isLit(mark), true);
  await page.mouse.move(0, 0);
  await row.locator('a').focus();
  assert.equal(await isLit(mark), true);
  await page.locator('svg.plate .mark').first().focus();
  await page.keyboard.press('ArrowRight');
  assert.equal(await page.evaluate(() => document.activeElement.classList.contains('lit')), true);
  await close();
});

test('a hostile name stays a name, and a script that slips in does not run', async () => {
  const { page, close } = await opened(pages.plate);
  assert.ok((await page.locator('body').innerText()).includes(hostileName));
  const ran = await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.body.append(script);
    return window.ran === true;
  });
  assert.equal(ran, false);
  await close();
});
