// A plate in the browser: from an empty library to a printed page.
//   node desk_plate_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { deskBrowser, keptPage, looksRight } from './desk_browser.mjs';

const [cospot, modules] = process.argv.slice(2);
const opened = await deskBrowser(cospot, modules);

async function typeLane(page, number, { label, role, spots }) {
  await page.getByRole('button', { name: 'add a lane' }).click();
  await page.getByLabel(`what is on lane ${number}`, { exact: true }).fill(label);
  await page.locator('.entry tbody tr').last().locator('select').selectOption(role);
  await page.getByLabel(`distances of the spots on lane ${number}, mm`).fill(spots);
  await page.keyboard.press('Tab');
}

test('from an empty library to the printed page', async () => {
  const { lab, page, heard, context } = await opened({ withLibrary: false });
  await page.getByRole('button', { name: 'begin the library' }).click();
  await page.getByRole('heading', { name: 'What is on the bench?' }).waitFor();
  // The compounds have to be known by their structures.
  writeFileSync(join(lab.folder, 'structures.csv'), 'compound,smiles\naspirin,CC(=O)Oc1ccccc1C(=O)O\ncaffeine,Cn1c(=O)c2c(ncn2C)n(C)c1=O\n');
  execFileSync(cospot, ['--library', lab.library, 'learn', join(lab.folder, 'structures.csv')]);
  await page.getByRole('button', { name: 'A plate' }).click();
  await page.locator('.given select').selectOption({ label: 'a new system …' });
  await page.getByLabel('name', { exact: true }).fill('silica, ethyl acetate');
  await page.getByLabel('stationary phase').fill('silica gel');
  await page.getByLabel('mobile phase').fill('ethyl acetate');
  await page.getByRole('button', { name: 'add to the library' }).click();
  await page.locator('.given select').waitFor();
  await typeLane(page, 1, { label: 'aspirin', role: 'standard', spots: '31,5' });
  await typeLane(page, 2, { label: 'caffeine', role: 'standard', spots: '12.6' });
  await typeLane(page, 3, { label: 'tablet', role: 'sample', spots: '31.4 12.7' });
  await page.getByRole('button', { name: 'keep the standards in the library' }).click();
  await page.getByText('The standards are kept.').waitFor({ state: 'attached' });
  await page.locator('[data-spot="2-1"] .label', { hasText: 'aspirin' }).waitFor();
  const printed = await keptPage({ page, context });
  assert.match(await printed.locator('body').innerText(), /aspirin[\s\S]*Retention alone is no proof|Retention alone is no proof[\s\S]*aspirin/);
  assert.deepEqual(heard, []);
});

test('an answer to a moved spot, by keyboard alone', async () => {
  const { page, heard } = await opened();
  await page.getByRole('button', { name: 'A plate' }).focus();
  await page.keyboard.press('Enter');
  await page.locator('.given select').selectOption('silica-HEA41');
  await typeLane(page, 1, { label: 'flask', role: 'sample', spots: '27' });
  const spot = page.locator('[data-spot="0-0"]');
  await spot.focus();
  const heading = page.locator('.panel h3');
  await heading.filter({ hasText: '27 mm' }).waitFor();
  const before = await page.locator('.candidates').innerText();
  await page.keyboard.press('Shift+ArrowUp');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Shift+ArrowUp');
  await heading.filter({ hasText: '29.1 mm' }).waitFor();
  await page.waitForFunction((old) => document.querySelector('.candidates')?.innerText !== old, before);
  assert.equal(await page.getByLabel('distances of the spots on lane 1, mm').inputValue(), '29.1');
  await page.keyboard.press('Delete');
  assert.equal(await page.locator('.drawn .spot').count(), 0);
  assert.deepEqual(heard, []);
});

test('what was entered outlives a reload', async () => {
  const { page } = await opened();
  await page.getByRole('button', { name: 'A plate' }).click();
  await page.locator('.given select').selectOption('silica-HEA41');
  await typeLane(page, 1, { label: 'flask 7', role: 'sample', spots: '27; 40,5' });
  await page.waitForTimeout(600);
  await page.reload();
  await page.getByLabel('distances of the spots on lane 1, mm').waitFor();
  assert.equal(await page.getByLabel('distances of the spots on lane 1, mm').inputValue(), '27  40.5');
  await page.goto(new URL('/#/sheets', page.url()).href);
  await page.getByLabel('Compound, system, person, day or title').fill('flask silica');
  await page.getByRole('link', { name: /A plate/ }).waitFor();
});

test('a distance that cannot be is marked where it stands', async () => {
  const { page } = await opened();
  await page.getByRole('button', { name: 'A plate' }).click();
  await typeLane(page, 1, { label: 'x', role: 'sample', spots: '20 95 abc' });
  assert.equal(await page.locator('.fault').innerText(), '95, abc: expected 0 to 70 mm');
});

test('from its photo', async () => {
  const { lab, page, heard } = await opened();
  await page.getByRole('button', { name: 'A plate' }).click();
  await page.locator('.given select').selectOption('silica-HEA41');
  for (const [name, mm] of [['start above the edge, mm', '12'], ['front above the edge, mm', '84']]) {
    await page.getByLabel(name).fill(mm);
    await page.keyboard.press('Tab');
  }
  await page.getByText('From a photo').click();
  await page.locator('input[type=file]').setInputFiles(join(lab.demo, 'plate-254nm.jpg'));
  await page.locator('.drawn image').waitFor({ timeout: 20000 });
  assert.equal(await page.locator('.drawn .spot').count(), 6);
  await page.locator('.drawn .spot .label', { hasText: /\w/ }).first().waitFor();
  assert.deepEqual(heard, []);
});

test('at 390 px and in the dark', async () => {
  const { page } = await opened();
  await page.getByRole('button', { name: 'A plate' }).click();
  await page.locator('.given select').selectOption('silica-HEA41');
  await typeLane(page, 1, { label: 'flask', role: 'sample', spots: '27' });
  await page.locator('.as-printed h1').waitFor();
  await looksRight(page);
});
