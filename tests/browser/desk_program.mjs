// The desk as a process of its own, with an invented library.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const demo = resolve(import.meta.dirname, '../../tools/demo-data');

/// A folder with the library of the demo, or none.
export function newFolder(cospot, { withLibrary = true } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'cospot-desk-'));
  const library = join(folder, 'lab.db');
  if (withLibrary) {
    execFileSync(cospot, ['--library', library, 'init']);
    execFileSync(cospot, ['--library', library, 'learn', '--systems', join(demo, 'systems.csv'), join(demo, 'library.csv')]);
  }
  return { folder, library, demo, clear: () => rmSync(folder, { recursive: true, force: true }) };
}

/// Starts the desk; resolves once it is open. `end` ends it and resolves to its exit code.
export function openDesk(cospot, library, options = []) {
  const child = spawn(cospot, ['--library', library, 'desk', '--no-browser', ...options], { stdio: ['ignore', 'pipe', 'pipe'] });
  const ended = new Promise((done) => { child.on('exit', (code, signal) => done(code ?? signal)); });
  return new Promise((done, fail) => {
    let said = '';
    child.stderr.on('data', (text) => {
      said += text;
      const address = said.match(/http:\/\/127\.0\.0\.1:(\d+)\/\?key=(\w+)/);
      if (!address || !said.includes('Ctrl-C')) return;
      done({ address: address[0], port: Number(address[1]), key: address[2], child, ended, said: () => said,
        end: (signal = 'SIGTERM') => { child.kill(signal); return ended; } });
    });
    child.on('exit', (code) => fail(new Error(`the desk ended with ${code}: ${said}`)));
  });
}
