import { defineConfig } from 'vite';

export default defineConfig({
  resolve: { conditions: ['wedgebook-source', 'module', 'browser', 'development|production'] },
  build: { target: 'es2022', sourcemap: true, reportCompressedSize: true },
  preview: { port: 4173 },
});
