// A column in the browser: from the plate to the rack, and from the tubes to the flask.
//   node desk_column_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { deskBrowser, keptPage, labelled, looksRight, paste } from './desk_browser.mjs';

const [cospot, modules] = process.argv.slice(2);
const opened = await deskBrowser(cospot, modules);

async function columnSheet(options) {
  const all = await opened(options);
  await all.page.getByRole('button', { name: 'A column' }).click();
  await all.page.getByLabel('Compound, compound 1', { exact: true }).waitFor();
  const cell = (name) => all.page.getByLabel(name, { exact: true });
  const type = async (name, text) => {
    await cell(name).fill(text);
    await all.page.keyboard.press('Tab');
  };
  return { ...all, cell, type, answer: all.page.locator('.as-printed .answer') };
}

test('compounds of the library, by the keyboard: plan, rack, tubes, what to combine, a page', async () => {
  const { page, context, heard, cell, type, answer } = await columnSheet();
  await labelled(page, 'system of the plate').selectOption('silica-HEA41');
  await cell('Compound, compound 1').focus();
  await page.keyboard.type('benzophenone');
  await page.keyboard.press('Tab'); // Rf: that of the library
  await page.keyboard.press('Tab'); // role
  await page.keyboard.press('Tab'); // amount
  await page.keyboard.type('120');
  await page.keyboard.press('Tab');
  await type('Compound, compound 2', 'vanillin');
  await type('Amount, mg, compound 2', '80');
  await cell('Is, compound 2').selectOption('target');
  await answer.getByText('200 mg of sample').waitFor();
  await answer.getByText('Collect fractions').waitFor();
  assert.ok(await answer.locator('svg .tube').count() > 10);
  await looksRight(page);
  const collected = (await answer.locator('.verdict').first().innerText()).match(/fractions (\d+)–(\d+)/);
  await page.getByRole('button', { name: 'From the tubes to the flask' }).click();
  await page.getByRole('button', { name: 'put the planned tubes below' }).click();
  await cell('Tube, or name of the standard, row 3').waitFor();
  const tubes = await page.locator('input[data-column="tube"]').evaluateAll((all) => all.map((one) => one.value));
  assert.ok(tubes.includes(collected[1]) && tubes.includes(collected[2]));
  // A tube that nobody spotted is not said to be empty.
  await type('Spots, row 1', '0,55');
  await type('Spots, row 2', '0.55 0.14');
  await type('Spots, row 3', '0.14');
  await type('Spots, row 4', '-');
  await answer.getByText('Which fractions to combine').waitFor();
  await answer.getByText('4 fractions of a column').waitFor();
  assert.match(await answer.innerText(), /Keep apart[\s\S]*A and B together/);
  await looksRight(page);
  await page.waitForTimeout(600);
  await page.reload();
  await answer.getByText('4 fractions of a column').waitFor();
  const printed = await keptPage({ page, context });
  assert.match(await printed.locator('body').innerText(), /Which fractions to combine/);
  assert.deepEqual(heard, []);
});

test('Rf as they were read, pasted into the rows, on a plate of an eluent; faults beside their cells', async () => {
  const { page, heard, type, cell, answer } = await columnSheet({ withLibrary: true });
  await labelled(page, 'or only its eluent').fill('hexane:ethyl acetate 4:1');
  await paste(page, 'starting ketone\t0,52\t60\nalcohol\t1,31\t320\n', '[data-column="compound"]');
  await page.locator('.typed .fault').waitFor();
  assert.match(await page.locator('.typed .fault').innerText(), /found 1.31; expected an R_F/);
  assert.equal(await cell('Rf, compound 2').evaluate((one) => one.classList.contains('faulty')), true);
  await type('Rf, compound 2', '0,31');
  await answer.getByText('380 mg of sample').waitFor();
  assert.equal(await page.locator('.typed .fault').count(), 0);
  assert.deepEqual(heard, []);
});

test('a column with learned runs is chosen by its name, and its size is not asked for', async () => {
  const { lab, page, heard, type, answer } = await columnSheet();
  const runs = join(lab.folder, 'runs.csv');
  writeFileSync(runs, 'column,silica_g,compound,Rf,start_mL,peak_mL,end_mL,run\nblue 12,12,ketone,0.52,38,47,66,r1\nblue 12,,alcohol,0.31,70,92,140,r1\n');
  execFileSync(cospot, ['--library', lab.library, 'learn', runs]);
  await page.reload();
  await labelled(page, 'a column of the library').selectOption('blue 12');
  await type('Compound, compound 1', 'ketone');
  await type('Rf, compound 1', '0.5');
  await type('Compound, compound 2', 'alcohol');
  await type('Rf, compound 2', '0.3');
  await labelled(page, 'sample, mg').fill('100');
  await page.keyboard.press('Tab');
  await answer.getByText('100 mg of sample').waitFor();
  assert.equal(await labelled(page, 'inner diameter, mm').isDisabled(), true);
  assert.match(await answer.innerText(), /learned/);
  assert.deepEqual(heard, []);
});

test('plates of the tubes from a table, with a standard on each plate and a tolerance', async () => {
  const { page, heard, answer } = await columnSheet();
  await page.getByRole('button', { name: 'From the tubes to the flask' }).click();
  await page.getByText('From a table instead').click();
  await paste(page, 'Fraktion;Laufstrecke (cm);Front (cm);Platte;role;label\n;3,9;7,0;1;standard;benzophenone\n3;3,9;7,0;1;;\n4;3,9;7,0;1;;\n;3,7;6,8;2;standard;benzophenone\n5;1,0;6,8;2;;\n6;1,1;6,8;2;;\n');
  await answer.getByText('4 fractions of a column').waitFor();
  assert.match(await answer.innerText(), /Combine A\s+3-4/);
  await labelled(page, 'spots of one component differ by up to, Rf').fill('0,05');
  await page.keyboard.press('Tab');
  await answer.getByText('within 0.05').first().waitFor();
  assert.deepEqual(heard, []);
});
