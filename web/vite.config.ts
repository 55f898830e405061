import { defineConfig } from 'vitest/config';
import { offline } from './plugins/offline.ts';

export default defineConfig({
  // the same bundle as a JSX preset would give, without its packages
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [offline()],
  worker: { format: 'es' },
  build: {
    outDir: '../server/bucktail/webapp',
    emptyOutDir: true,
    // every file has an address of its own, so that the page's content policy needs no data: exception
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'es2022',
  },
  test: {
    include: ['src/**/*.test.{ts,tsx}'],
    environment: 'node',
  },
});
