// A table in the browser: shown as it was, its columns named, its faults ringed, kept in the library.
//   node desk_table_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { deskBrowser, labelled, looksRight, paste } from './desk_browser.mjs';

const [cospot, modules] = process.argv.slice(2);
const opened = await deskBrowser(cospot, modules);

/// A sheet for a table, with what it keeps in the library at hand.
async function tableSheet() {
  const all = await opened();
  await all.page.getByRole('button', { name: 'A table' }).click();
  await all.page.locator('.paste').waitFor();
  const values = () => execFileSync(cospot, ['--library', all.lab.library, '--json', 'list', 'systems'], { encoding: 'utf8' })
    .trim().split('\n').map((line) => JSON.parse(line)).reduce((sum, system) => sum + system.values, 0);
  return { ...all, values, keeping: all.page.getByRole('button', { name: 'keep in the library' }), choices: all.page.locator('.naming select') };
}

const faulty = `compound;system;quantity;value;run;datum
vanillin;silica-HEA41;Rf;1,23;P1;2024-03-11
vanillin;silica-HEA41;Rf;0,15;P2;31.13.2024
benzophenone;silica-HEA41;Rf;0,56;P2;12.3.2024
`;
const classSheet = `Platte;Bahn;Probe;Laufstrecke (cm);Front (cm);Rolle
A;1;vanillin;1,1;7,0;Bekannt
A;2;benzophenone;3,9;;Bekannt
A;3;group 1;4,8;;Unbekannt
`;

test('faults are ringed where they are, corrected there, and nothing is stored before it is kept', async () => {
  const { page, heard, values, keeping } = await tableSheet();
  const before = values();
  await paste(page, faulty);
  await page.locator('td.ringed').nth(1).waitFor();
  assert.match(await page.locator('.fault-row').first().innerText(), /value: found 1.23; expected an R_F from 0/);
  assert.equal(await page.locator('td.ringed').count(), 2);
  assert.equal(await keeping.isDisabled(), true);
  await looksRight(page);
  // By the keyboard: each correction leads to the next fault.
  await page.locator('input[data-line="2"]').focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('0,13');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.dataset.line === '3');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('12.3.2024');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelectorAll('td.ringed').length === 0);
  await page.getByText('Dry run: nothing was stored').waitFor();
  assert.equal(values(), before);
  assert.match(await page.locator('.pasted-tables').first().innerText(), /Corrected here: pasted.csv, line 2, value: “1,23” is now “0,13”/);
  await keeping.click();
  await page.getByText('The library holds it now.').waitFor({ state: 'attached' });
  assert.equal(values(), before + 3);
  await page.reload();
  await page.locator('.pasted tbody tr').first().waitFor();
  assert.equal(await page.locator('.about .state').innerText(), 'kept');
  assert.match(await page.locator('.pasted').innerText(), /0,13/);
  assert.deepEqual(heard, []);
});

test('good rows are kept, the faulty ones stay to be corrected', async () => {
  const { page, heard, values, keeping } = await tableSheet();
  const before = values();
  await paste(page, faulty);
  await page.locator('td.ringed').first().waitFor();
  await page.getByLabel('keep the good rows').check();
  await page.getByText('2 rows would be refused').waitFor();
  await keeping.click();
  await page.getByText('The rows that were left out are shown above').waitFor();
  assert.equal(values(), before + 1);
  assert.match(await page.locator('.pasted').innerText(), /31\.13\.2024/);
  assert.deepEqual(heard, []);
});

test('columns and words of a class are named once, and remembered', async () => {
  const { page, heard, keeping, choices } = await tableSheet();
  await paste(page, classSheet);
  await choices.first().waitFor();
  assert.deepEqual(await choices.evaluateAll((all) => all.map((one) => one.value)), ['plate', 'lane', 'label', 'distance_mm', 'front_mm', 'role']);
  await labelled(page, 'system').selectOption('silica-HEA41');
  await labelled(page, '“Bekannt” (role) means').selectOption('standard');
  await labelled(page, '“Unbekannt” (role) means').selectOption('sample');
  await labelled(page, 'remember the columns as').fill('class sheet');
  await page.keyboard.press('Tab');
  await page.getByText('Dry run: nothing was stored').waitFor();
  await page.waitForFunction(() => [...document.querySelectorAll('button')].some((one) => one.textContent === 'keep in the library' && !one.disabled));
  await keeping.click();
  await page.getByText('The library remembers these columns').waitFor();
  // The next sheet needs the name alone.
  await page.getByRole('link', { name: 'Bench' }).click();
  await page.getByRole('button', { name: 'A table' }).click();
  await paste(page, classSheet.replaceAll('A;', 'B;'));
  await labelled(page, 'remember the columns as').fill('class sheet');
  await page.keyboard.press('Tab');
  await labelled(page, 'system').selectOption('silica-HEA41');
  await labelled(page, 'name of the run').fill('second');
  await page.keyboard.press('Tab');
  await page.getByText('Dry run: nothing was stored').waitFor();
  assert.equal(await choices.first().evaluate((one) => one.selectedOptions[0].textContent), 'as remembered');
  assert.deepEqual(heard, []);
});

test('the columns that the library remembers are listed, used and forgotten with a reason', async () => {
  const { lab, page, heard, choices } = await tableSheet();
  const learned = join(lab.folder, 'learned.csv');
  writeFileSync(learned, 'Platte;Bahn;Probe;Laufstrecke (cm);Front (cm);Rolle\nA;1;vanillin;1,5;7,0;standard\n');
  execFileSync(cospot, ['--library', lab.library, 'learn', learned, '--system', 'silica-HEA41', '--as', 'class sheet',
    ...['plate=Platte', 'lane=Bahn', 'label=Probe', 'distance_mm=Laufstrecke (cm)', 'front_mm=Front (cm)', 'role=Rolle'].flatMap((one) => ['--map', one])], { stdio: 'ignore' });
  await page.reload();
  await paste(page, 'Platte;Bahn;Probe;Laufstrecke (cm);Front (cm);Rolle\nB;1;vanillin;1,4;7,0;standard\n');
  await page.getByText('columns that the library remembers').click();
  await page.locator('.remembered').getByText('“Bahn” is lane').waitFor();
  await page.getByRole('button', { name: 'read the table as class sheet' }).click();
  assert.equal(await choices.first().evaluate((one) => one.selectedOptions[0].textContent), 'as remembered');
  await labelled(page, 'system').selectOption('silica-HEA41');
  await page.getByText('Dry run: nothing was stored').waitFor();
  await page.getByRole('button', { name: 'forget class sheet' }).click();
  await looksRight(page);
  await page.getByLabel('why?').fill('another form');
  await page.keyboard.press('Enter');
  await page.locator('.remembered ~ .outcome').getByText('has forgotten what the sheet "class sheet"').waitFor();
  await page.locator('.remembered li').waitFor({ state: 'detached' });
  assert.equal(execFileSync(cospot, ['--library', lab.library, '--json', 'list', 'sheets'], { encoding: 'utf8' }), '');
  assert.deepEqual(heard, []);
});

test('a refusal says what to choose on the page, not on the command line', async () => {
  const { page, heard } = await tableSheet();
  await paste(page, 'Stoff;smiles;System;Rf\nvanillin;;nowhere;0,3\n');
  await page.locator('.fault-row, .refusal').getByText('choose above each column which of them it is').first().waitFor();
  await paste(page, 'compound;smiles;system;Rf\nvanillin;;nowhere;0,3\n');
  await page.getByText('tick “create systems that rows name and the library lacks”').waitFor();
  assert.doesNotMatch(await page.locator('#view').innerText(), /--[a-z]|cospot [a-z]/);
  await page.getByLabel('create systems that rows name and the library lacks').check();
  await page.getByText('Dry run: nothing was stored').waitFor();
  assert.deepEqual(heard, []);
});

test('messages of the command line are said in the words of the page, and names in them stay', async () => {
  const { page } = await tableSheet();
  const said = [
    ['command line: found no --ladder; expected --ladder FILE: the library holds retention indices on "C18"',
      'found nothing in “the ladder run with it”; expected “the ladder run with it”: the library holds retention indices on "C18"'],
    ['found "x"; expected a compound of the library (cospot list); if it is missing, measure its standard and `cospot learn` it first',
      'found "x"; expected a compound of the library (Library); if it is missing, add it to the Library'],
    ['not yet validated for one TLC system (run cospot prove)', 'not yet validated for one TLC system (Library, “How far to trust it”)'],
    ['command line, --hold-up: found 0; expected a number above 0', '“hold-up time”: found 0; expected a number above 0'],
    ['expected the columns peak,tR, or --map COLUMN=HEADER for what your table calls them; perhaps --map tR="Ret. Time [min]"',
      'expected the columns peak,tR, or choose above each column which of them it is; perhaps “Ret. Time [min]” is tR'],
    ['no spots are seen: --lanes says where the lanes are', 'no spots are seen: “the lanes of the plate” says where the lanes are'],
    ['nothing was stored: learn it as it is with --accept.', 'nothing was stored: learn it as it is with “keep also what seems wrong”.'],
    ['"a--b" and --nothing of ours', '"a--b" and --nothing of ours']];
  const words = await page.evaluate(async (texts) => {
    const { inPageWords } = await import('/option_words.js');
    return texts.map(inPageWords);
  }, said.map(([text]) => text));
  assert.deepEqual(words, said.map(([, expected]) => expected));
});

test('Windows-1252, UTF-16 with tabs and titles above the header are shown as they are', async () => {
  const { lab, page, heard, choices } = await tableSheet();
  const latin = join(lab.folder, 'Größen.csv');
  writeFileSync(latin, Buffer.from('compound;system;Rf;note\nvanillin;silica-HEA41;0,14;kühl, 18 °C\n', 'latin1'));
  await page.locator('input[type=file]').setInputFiles(latin);
  await page.getByText('Windows-1252').waitFor();
  assert.match(await page.locator('.pasted').innerText(), /kühl, 18 °C/);
  const wide = join(lab.folder, 'wide.txt');
  writeFileSync(wide, Buffer.from('\ufeffOur standards, spring\n\nName\tsystem\tRf\tnote\nvanillin\tsilica-HEA41\t0,14\tΔ\n', 'utf16le'));
  await page.locator('input[type=file]').setInputFiles(wide);
  await page.getByText('divided by tabs, UTF-16').waitFor();
  assert.match(await page.locator('tr.above').innerText(), /Our standards, spring/);
  assert.equal(await choices.first().inputValue(), 'compound');
  await page.getByText('Dry run: nothing was stored').waitFor();
  assert.deepEqual(heard, []);
});

test('systems are learned from a table of their own; a distance without its unit is asked for it', async () => {
  const { page, heard, keeping } = await tableSheet();
  await paste(page, 'system,technique,stationary_phase,mobile_phase\nsilica-T,tlc,silica gel,toluene\n');
  await page.getByText('Dry run: nothing was stored').waitFor();
  await keeping.click();
  await page.getByText('The library holds it now.').waitFor({ state: 'attached' });
  await paste(page, 'lane,label,Weg,Front,role\n1,vanillin,1.1,7.0,standard\n');
  await page.getByLabel('unit of “Weg”').selectOption('cm');
  await page.getByLabel('unit of “Front”').selectOption('cm');
  await labelled(page, 'system').selectOption('silica-T');
  await page.getByText('is read in cm and converted to mm').first().waitFor();
  await page.locator('.as-printed tr', { hasText: 'Values' }).locator('td', { hasText: '1' }).first().waitFor();
  assert.deepEqual(heard, []);
});
