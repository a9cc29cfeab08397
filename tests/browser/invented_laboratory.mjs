// An invented library and invented runs for the pages that the browser opens: a plate of twelve
// lanes, a run of 150 peaks, a column of 150 fractions, suspects, and names that would like to be more than names.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const hostileName = '</script><script>window.ran = true</script><img src=x onerror=alert(1)>';

/** Numbers from 0 to 1, the same at every call of the test. */
function invented(seed) {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const families = [['alkanol', 'O'], ['alkanal', '=O'], ['alkyl chloride', 'Cl']];

function libraryTables() {
  const random = invented(7);
  const rows = ['compound,smiles,system,quantity,value,run,date'];
  for (let run = 1; run <= 4; run += 1) {
    families.forEach(([name, end], family) => {
      for (let carbons = 3; carbons <= 14; carbons += 1) {
        const compound = `${name} ${carbons},${'C'.repeat(carbons)}${end}`;
        const index = 100 * carbons + 25 * family + 3 * random();
        const rf = 0.05 + 0.07 * (carbons - 3) + 0.02 * family + 0.02 * random();
        rows.push(`${compound},gc,RI,${index.toFixed(1)},G${run},2025-0${run}-11`);
        rows.push(`${compound},plate,Rf,${rf.toFixed(3)},P${run},2025-0${run}-12`);
      }
    });
  }
  rows.push(`"${hostileName}",OCc1ccccc1,plate,Rf,0.40,P1,2025-01-12`);
  rows.push('alkanol 5,CCCCCO,gc,RI,760,G9,2025-09-11'); // far from its other values
  return {
    systems: 'system,technique,stationary_phase,mobile_phase,scale,programme\n' +
      'gc,gc,dimethylsilicone,helium,n-alkane,"50 C, 5 C/min"\n' +
      'plate,tlc,silica gel,hexane:ethyl acetate 4:1,,\n',
    values: `${rows.join('\n')}\n`,
  };
}

function plateOfTwelveLanes() {
  const random = invented(21);
  const rows = ['lane,label,spot,distance_mm,front_mm,role', '1,alkanol 8,1,28,72,standard'];
  for (let lane = 2; lane <= 12; lane += 1) {
    for (let spot = 1; spot <= 5; spot += 1) {
      const distance = spot < 3 ? 20 + 0.3 * spot : 70 * random(); // the first two all but touch
      rows.push(`${lane},crude batch ${lane},${spot},${distance.toFixed(1)},72,sample`);
    }
  }
  return `${rows.join('\n')}\n`;
}

function runOf150Peaks() {
  const random = invented(5);
  const rows = ['peak,tR,area,width_half'];
  for (let peak = 1; peak <= 150; peak += 1) {
    const time = 3.1 + 0.22 * peak + 0.1 * random();
    const area = Math.exp(6 + 5 * random());
    rows.push(`${peak},${time.toFixed(3)},${area.toFixed(0)},0.08`);
  }
  const ladder = ['carbon,tR'];
  for (let carbon = 3; carbon <= 15; carbon += 1) ladder.push(`${carbon},${(3 * (carbon - 2)).toFixed(3)}`);
  return { peaks: `${rows.join('\n')}\n`, ladder: `${ladder.join('\n')}\n` };
}

/** Gaussian bands over 150 fractions, of which some were never spotted. */
function columnOf150Fractions() {
  const random = invented(13);
  const bands = [[0.8, 8, 2], [0.62, 25, 4], [0.52, 38, 4], [0.41, 60, 6], [0.33, 80, 6], [0.2, 110, 10]];
  const rows = ['fraction,Rf,intensity,plate,mass_mg'];
  for (let fraction = 1; fraction <= 150; fraction += 1) {
    if ((fraction > 65 && fraction < 70) || (fraction > 88 && fraction < 100 && fraction % 2 === 0)) continue;
    const plate = `P${Math.ceil(fraction / 20)}`;
    const spots = bands.flatMap(([rf, centre, width]) => {
      const intensity = 250 * Math.exp(-(((fraction - centre) / width) ** 2) / 2);
      return intensity > 2 ? [`${fraction},${(rf + 0.015 * random()).toFixed(3)},${intensity.toFixed(0)},${plate},`] : [];
    });
    rows.push(...(spots.length > 0 ? spots : [`${fraction},,,${plate},0.4`]));
  }
  return `${rows.join('\n')}\n`;
}

/** A detector's signal: two bands that overlap, and one that does not. */
function trace() {
  const rows = ['volume_mL,signal'];
  for (let volume = 0; volume <= 600; volume += 1) {
    const band = (height, centre, width) => height * Math.exp(-(((volume - centre) / width) ** 2) / 2);
    rows.push(`${volume},${(2 + band(800, 90, 14) + band(500, 135, 12) + band(1200, 300, 30)).toFixed(2)}`);
  }
  return `${rows.join('\n')}\n`;
}

function sampleForAColumn() {
  return 'compound,Rf,role,amount_mg\n' +
    `"${hostileName}",0.62,impurity,80\nalkanol 8,0.31,target,300\n` +
    'an isomer of the alkanol with a long name,0.28,impurity,60\ndiol,0.12,impurity,20\nsalt,0,,5\n';
}

/** Retention over the fraction of methanol: straight lines that scatter and cross. */
function readingsOverTheFraction() {
  const rows = ['compound,percent,k'];
  [['caffeine', 1.3, 2.7], ['vanillin', 1.07, 1.95], ['coumarin', 1.63, 2.9], [`"${hostileName}"`, 1.82, 3.4],
    ['an aldehyde with a name that hardly fits into a column of a table', 1.7, 2.2],
    ['kampferöl', 1.5, 2.5]].forEach(([name, weak, slope], i) => {
    [20, 35, 50].forEach((percent, j) => {
      const scatter = 0.01 * ((i + j) % 3 - 1);
      rows.push(`${name},${percent},${(10 ** (weak - slope * percent / 100 + scatter)).toFixed(3)}`);
    });
  });
  return `${rows.join('\n')}\n`;
}

/** A solvent, and a hundred peaks that begin before the ladder and end behind it. */
function runToDistil() {
  const random = invented(17);
  const rows = ['peak,tR,area,start,end', `"${hostileName}",1.4,900000,1.2,1.6`];
  for (let peak = 1; peak <= 100; peak += 1) {
    const time = 3 + 0.13 * peak + 0.05 * random();
    const area = 1000 * Math.exp(random() - (((peak - 45) / 30) ** 2));
    rows.push(`${peak},${time.toFixed(3)},${area.toFixed(0)},${(time - 0.04).toFixed(3)},${(time + 0.04).toFixed(3)}`);
  }
  const ladder = ['carbon,tR'];
  for (const carbon of [8, 9, 10, 11, 12, 14, 16, 18]) ladder.push(`${carbon},${(0.9 * (carbon - 4)).toFixed(2)}`);
  return { peaks: `${rows.join('\n')}\n`, ladder: `${ladder.join('\n')}\n` };
}

/** A recorded signal of 12,000 points: forty peaks from tall to small on a baseline that drifts. */
function recordedSignal() {
  const random = invented(23);
  const peaks = [...Array(40).keys()].map((i) => [1 + 0.7 * i + 0.1 * random(), 5 + 900 * Math.exp(-(i % 9))]);
  const rows = ['time (min)\tsignal (mAU)'];
  for (let i = 0; i < 12000; i += 1) {
    const time = i * 0.0025;
    let signal = 4 + 0.2 * time + 0.3 * random();
    for (const [at, height] of peaks) signal += height * Math.exp(-(((time - at) / 0.04) ** 2) / 2);
    rows.push(`${time.toFixed(4)}\t${signal.toFixed(3)}`);
  }
  return `${rows.join('\n')}\n`;
}

/** Six batches of one compound, with an impurity that grows from batch to batch. */
const batches = [1, 2, 3, 4, 5, 6].map((batch) =>
  `peak,tR,area,width_half\n1,15.75,${40 * batch},0.08\n2,18.0,99000,0.09\n3,21.4,120,0.08\n`);

/** Writes everything into a new folder and lets cospot draw its pages; returns their paths. */
export function drawPages(cospot) {
  const folder = mkdtempSync(join(tmpdir(), 'cospot-browser-'));
  const write = (name, text) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const call = (...words) => {
    try {
      execFileSync(cospot, ['--library', join(folder, 'invented.db'), ...words], { stdio: 'ignore' });
    } catch (error) {
      if (error.status !== 1) throw error; // 1: something needs attention
    }
  };
  const tables = libraryTables();
  call('init');
  call('learn', '--accept', '--systems', write('systems.csv', tables.systems), write('values.csv', tables.values));
  const run = runOf150Peaks();
  const distilled = runToDistil();
  const page = (name, ...words) => {
    call(...words, '--report', join(folder, `${name}.html`));
    return join(folder, `${name}.html`);
  };
  return {
    folder,
    pages: {
      plate: page('plate', 'identify', write('plate.csv', plateOfTwelveLanes()), '--system', 'plate'),
      run: page('run', 'identify', write('run.csv', run.peaks), '--system', 'gc', '--ladder',
        write('ladder.csv', run.ladder)),
      audit: page('audit', 'audit'),
      prove: page('prove', 'prove', '--dry-run'),
      purity: page('purity', 'purity', join(folder, 'run.csv'), '--declared', 'alkanol 8', '--expected',
        'alkanal 8', '--dose-mg-per-day', '500', '--system', 'gc', '--ladder', join(folder, 'ladder.csv')),
      batches: page('batches', 'purity', ...batches.map((peaks, i) => write(`batch 2025-00${i + 1}.csv`, peaks)),
        '--declared', 'alkanol 8', '--system', 'gc', '--ladder', join(folder, 'ladder.csv'), '--rules',
        write('rules.json', '{"name": "invented", "any_other": "0.2", "declared_at_least": "99.0"}')),
      fractions: page('fractions', 'pool', write('fractions.csv', columnOf150Fractions()), '--target', 'D',
        '--loaded-mg', '900'),
      trace: page('trace', 'pool', write('trace.csv', trace()), '--fraction-ml', '10'),
      column: page('column', 'column', write('sample.csv', sampleForAColumn())),
      advice: page('advice', 'advise', join(folder, 'plate.csv'), '--system', 'plate'),
      resolve: page('resolve', 'resolve', write('readings.csv', readingsOverTheFraction()), '--hold-up', '1.2',
        '--gradient', '0.05,0.95,20', '--dwell', '1', '--wanted-k', '3', '--compound', 'vanillin'),
      resolveOne: page('resolve-one', 'resolve', join(folder, 'readings.csv'), '--compounds', 'kampferöl'),
      distil: page('distil', 'distil', write('distilled.csv', distilled.peaks), '--ladder',
        write('alkanes.csv', distilled.ladder), '--solvent-until', '2', '--system', 'gc'),
      predict: page('predict', 'predict', 'alkanol 8', 'CCCCCCCCCCCCO'),
      history: page('history', 'history'),
      recorded: page('recorded', 'peaks', write('recorded.txt', recordedSignal())),
    },
  };
}
