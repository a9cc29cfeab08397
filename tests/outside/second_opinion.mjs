// Compares InChIKeys, TPSA and Crippen log P with those of the npm package @rdkit/rdkit, a current
// build of the same general-purpose library, on the structures of the demo.
//   node second_opinion.mjs COSPOT DEMO_DATA FOLDER_OF_NODE_MODULES
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const [cospot, data, modules] = process.argv.slice(2);
const require = createRequire(join(resolve(modules), 'package.json'));
const rdkit = await require('@rdkit/rdkit')();

const folder = mkdtempSync(join(tmpdir(), 'cospot-second-opinion-'));
try {
  const library = join(folder, 'demo.db');
  const call = (...words) => execFileSync(cospot, ['--library', library, ...words], {
    encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'],
  });
  call('init');
  call('learn', '--systems', join(data, 'systems.csv'), join(data, 'library.csv'));
  const smiles = call('--json', 'list').trim().split('\n').map((line) => JSON.parse(line).smiles);
  const structures = join(folder, 'structures.smi');
  writeFileSync(structures, smiles.map((text, i) => `${text} structure ${i}\n`).join(''));
  const lines = call('--json', 'predict', structures, '--system', 'paper-BAW415')
    .trim().split('\n').map((line) => JSON.parse(line));

  let differences = 0;
  const compare = (what, ours, theirs, tolerance) => {
    const equal = tolerance === 0 ? ours === theirs : Math.abs(ours - theirs) <= tolerance;
    if (!equal) {
      differences += 1;
      console.error(`${what}: ${ours} here, ${theirs} there`);
    }
  };
  smiles.forEach((text, i) => {
    const molecule = rdkit.get_mol(text);
    const theirs = JSON.parse(molecule.get_descriptors());
    const ours = lines[i];
    compare(`InChIKey of ${text}`, ours.inchikey,
            rdkit.get_inchikey_for_inchi(molecule.get_inchi()), 0);
    compare(`TPSA of ${text}`, ours.descriptors.tpsa, theirs.tpsa, 0.01);
    compare(`log P of ${text}`, ours.descriptors.crippen_logp, theirs.CrippenClogP, 0.001);
    molecule.delete();
  });
  console.log(`${smiles.length} structures compared with RDKit ${rdkit.version()}, ` +
              `${differences} differences`);
  process.exitCode = differences === 0 && smiles.length > 0 ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true });
}
