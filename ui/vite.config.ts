import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// The screens as the window program carries them: one page, everything inside, nothing loaded from outside.
export default defineConfig(({ mode }) => ({
  plugins: [svelte()],
  build: { target: 'safari15', outDir: 'dist', emptyOutDir: true, reportCompressedSize: false },
  // Tests run the browser half of Svelte, so that state reacts as it does on a screen.
  ...(mode === 'test' ? { resolve: { conditions: ['browser'] } } : {}),
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
}));
