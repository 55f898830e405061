// Makes the app work without a network: after the build has written everything, lists it, hashes it,
// bundles src/sw.ts with that list inside, and writes a .br and a .gz beside whatever shrinks.
import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import { build, type Plugin, type ResolvedConfig } from 'vite';
import type { Precache, PrecachedFile } from '../src/shell/offline.ts';

const WORKER = 'sw.js';
const SHRINKS = /\.(html|js|css|svg|json|webmanifest|wasm)$/;
const NOT_SERVED = /\.(br|gz|map)$/;
/** Smaller files are not worth a second copy. */
const SMALLEST_TO_SHRINK = 512;

const brotli = promisify(brotliCompress);
const gzipped = promisify(gzip);

/** The plugin; only a build uses it, the development server has no service worker. */
export function offline(): Plugin {
  let config: ResolvedConfig;
  return {
    name: 'bucktail-offline',
    apply: 'build',
    configResolved(resolved) {
      config = resolved;
    },
    async closeBundle(error?: Error) {
      if (error) return;
      const folder = path.resolve(config.root, config.build.outDir);
      const precache = listOf(await hashAll(folder, (await filesIn(folder)).filter(isPrecached)));
      await buildWorker(config.root, folder, precache);
      const all = await filesIn(folder);
      await Promise.all(
        all.filter((name) => SHRINKS.test(name)).map((name) => shrink(folder, name)),
      );
      const kilobytes = Math.round(
        precache.files.reduce((sum, file) => sum + file.bytes, 0) / 1000,
      );
      config.logger.info(
        `offline: ${precache.files.length} files, ${kilobytes} kB, ${precache.version}`,
      );
    },
  };
}

/** Names of all files below a folder, with forward slashes, in a fixed order. */
async function filesIn(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)))
    .map((name) => name.split(path.sep).join('/'))
    .sort();
}

function isPrecached(name: string): boolean {
  return name !== WORKER && !NOT_SERVED.test(name);
}

/** Address, sha256 (hexadecimal) and size of each file. */
function hashAll(folder: string, names: string[]): Promise<PrecachedFile[]> {
  return Promise.all(
    names.map(async (name) => {
      const content = await readFile(path.join(folder, name));
      const hash = createHash('sha256').update(content).digest('hex');
      return { url: `/${name}`, hash, bytes: content.length };
    }),
  );
}

/** The list the service worker carries; its version is a hash of every address and hash in it. */
function listOf(files: PrecachedFile[]): Precache {
  const whole = createHash('sha256');
  for (const file of files) whole.update(`${file.url} ${file.hash}\n`);
  return { version: whole.digest('hex').slice(0, 16), files };
}

/** Bundle src/sw.ts into one classic script at the top, where its scope is the whole site. */
async function buildWorker(root: string, folder: string, precache: Precache): Promise<void> {
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    define: { __PRECACHE__: JSON.stringify(precache) },
    build: {
      outDir: folder,
      emptyOutDir: false,
      target: 'es2022',
      modulePreload: false,
      rolldownOptions: {
        input: path.join(root, 'src/sw.ts'),
        output: { format: 'iife', entryFileNames: WORKER },
      },
    },
  });
}

async function shrink(folder: string, name: string): Promise<void> {
  const file = path.join(folder, name);
  const content = await readFile(file);
  if (content.length < SMALLEST_TO_SHRINK) return;
  const sized = { params: { [constants.BROTLI_PARAM_SIZE_HINT]: content.length } };
  await writeFile(`${file}.br`, await brotli(content, sized));
  await writeFile(`${file}.gz`, await gzipped(content, { level: 9 }));
}
