// Many plates and runs in the browser: mapped, judged, the doubtful first, printed in one go.
//   node desk_many_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { deskBrowser, keptPage, labelled, looksRight, paste } from './desk_browser.mjs';

const [cospot, modules] = process.argv.slice(2);
const opened = await deskBrowser(cospot, modules);

async function manySheet() {
  const all = await opened();
  await all.page.getByRole('button', { name: 'Many at once' }).click();
  await all.page.locator('.paste').first().waitFor();
  const filter = (name) => all.page.getByRole('button', { name: new RegExp(`^${name}: `) });
  const shown = () => all.page.locator('.overview .opener:visible').allInnerTexts();
  return { ...all, filter, shown };
}

const plate = (groups) => `Platte;Bahn;Probe;Laufstrecke (cm);Front (cm);Rolle\n${groups.map(([name, distance]) =>
  `${name};1;vanillin;1,1;7,0;standard\n${name};2;benzophenone;3,9;;standard\n${name};3;group ${name};${distance};;sample\n`).join('')}`;

test('a class of plates from two files: the doubtful first, a row opens, ticks stay, all sheets in one page', async () => {
  const { lab, page, context, heard, filter, shown } = await manySheet();
  const names = ['monday.csv', 'tuesday.csv'].map((name) => join(lab.folder, name));
  writeFileSync(names[0], plate([['A', '3,9'], ['B', '2,0']]));
  writeFileSync(names[1], plate([['C', '6,6']]));
  await page.locator('input[type=file]').first().setInputFiles(names);
  await labelled(page, 'system').selectOption('silica-HEA41');
  await filter('all').waitFor();
  assert.equal((await shown()).length, 3);
  const probabilities = await page.locator('.overview tbody tr').evaluateAll((rows) => rows.map((row) =>
    [row.cells[row.cells.length - 2].textContent === '', Number([...row.cells].findLast((cell) => 'value' in cell.dataset).dataset.value)]));
  assert.deepEqual(probabilities, [...probabilities].sort((a, b) => Number(a[0]) - Number(b[0]) || (a[0] ? 0 : a[1] - b[1])));
  // By the keyboard: the row shows its plate and its spots, and closes again.
  const opener = page.locator('.overview .opener').first();
  const [first] = await shown();
  await opener.focus();
  await page.keyboard.press('Enter');
  assert.equal(await opener.getAttribute('aria-expanded'), 'true');
  assert.equal(await page.locator('.behind article').count(), 1);
  assert.match(await page.locator('.behind article h3').innerText(), new RegExp(first.trim().replace(/\W/g, '.')));
  assert.equal(await page.locator('.behind svg.plate').count(), 1);
  await looksRight(page);
  await page.keyboard.press('Enter');
  assert.equal(await page.locator('.behind').count(), 0);
  // What was looked at is done, also after a reload.
  const before = await page.locator('.overview input[type=checkbox]').count();
  await page.locator('.overview input[type=checkbox]').first().check();
  await filter('need a look').click();
  assert.equal((await shown()).length, before - 1);
  await page.waitForTimeout(600); // as long as the sheet waits for the hand to rest
  await page.reload();
  await page.getByRole('button', { name: `need a look: ${before - 1}` }).waitFor();
  const printed = await keptPage({ page, context });
  const text = await printed.locator('body').innerText();
  for (const name of ['group A', 'group B', 'group C', 'Retention alone is no proof']) assert.ok(text.includes(name), name);
  assert.ok(await printed.locator('.sheet, [data-scope]').count() >= 3, 'a sheet for each sample');
  assert.deepEqual(heard, []);
});

test('batches with a ladder: each peak behind its run, a link to a peak opens the row', async () => {
  const { lab, page, heard, filter, shown } = await manySheet();
  await page.locator('input[type=file]').first().setInputFiles(['hplc_batch_1.csv', 'hplc_batch_2.csv'].map((name) => join(lab.demo, name)));
  await labelled(page, 'system').selectOption('C18-WA6040');
  await page.getByText('the library holds retention indices').waitFor();
  await page.getByText('The ladder run with them').click();
  await page.locator('.ladder input[type=file]').setInputFiles(join(lab.demo, 'hplc_ladder.csv'));
  await filter('all').waitFor();
  assert.deepEqual((await shown()).map((name) => name.trim()).sort(), ['hplc_batch_1', 'hplc_batch_2']);
  await page.getByText('Each spot or peak in one table').click();
  await page.locator('a[href="#feature-3"]').click();
  await page.waitForFunction(() => document.activeElement?.id === 'feature-3');
  assert.equal(await page.locator('.behind article').count(), 6);
  assert.match(page.url(), /#\/sheet\//);
  await page.locator('.overview thead button').first().click(); // sorts; the opened row closes before
  assert.equal(await page.locator('.behind').count(), 0);
  assert.deepEqual(heard, []);
});

test('a fault in one of several files is ringed in that file, and the good lanes are judged without it', async () => {
  const { page, heard, filter, shown } = await manySheet();
  await paste(page, plate([['A', '3,9'], ['B', 'zwei']]));
  await labelled(page, 'system').selectOption('silica-HEA41');
  await page.locator('td.ringed').waitFor();
  assert.match(await page.locator('.fault-row').innerText(), /found "zwei"/);
  await page.getByLabel('leave out lanes').check();
  await page.locator('.as-printed .answer').waitFor();
  assert.match(await page.locator('.as-printed').innerText(), /group A/);
  await page.getByLabel('leave out lanes').uncheck();
  await page.locator('td.ringed input').fill('2,0');
  await page.keyboard.press('Tab');
  await filter('all').waitFor();
  assert.equal((await shown()).length, 2);
  assert.deepEqual(heard, []);
});
