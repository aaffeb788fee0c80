import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

// The pages of e2e/page: the screens over invented houses, those of the office over one.
export default defineConfig({
  root: here('page'),
  publicDir: here('../public'),
  plugins: [svelte({ configFile: here('../svelte.config.js') })],
  build: { target: 'safari15', outDir: here('out/page'), emptyOutDir: true, reportCompressedSize: false,
    rolldownOptions: { input: ['index.html', 'office.html'].map((page) => here(`page/${page}`)) } },
});
