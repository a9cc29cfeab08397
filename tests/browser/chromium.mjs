// Debian's Chromium without a window.
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

/// Launches it with the playwright-core of this folder of node modules.
export function launchedChromium(modules) {
  const { chromium } = createRequire(join(resolve(modules), 'package.json'))('playwright-core');
  return chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
}
