import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// The screens as the program carries them: pages with everything inside, nothing loaded from outside. Those of the office
// are built for themselves (`--mode office`) beside those of the tablet, so that neither carries a word of the other.
export default defineConfig(({ mode }) => ({
  plugins: [svelte()],
  build: {
    target: 'safari15',
    outDir: 'dist',
    emptyOutDir: mode !== 'office',
    reportCompressedSize: false,
    rolldownOptions: { input: mode === 'office' ? 'office.html' : 'index.html' },
  },
  // Tests run the browser half of Svelte, so that state reacts as it does on a screen.
  ...(mode === 'test' ? { resolve: { conditions: ['browser'] } } : {}),
  // No test waits for anything; on a machine that is busy with other things the largest take long.
  test: { include: ['src/**/*.test.ts'], environment: 'node', testTimeout: 120_000 },
}));
