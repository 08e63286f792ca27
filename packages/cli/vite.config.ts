import { builtinModules } from 'node:module';
import { defineConfig } from 'vite';

// One bundle, so that `npx wedgebook` starts quickly and needs no other build.
export default defineConfig({
  resolve: { conditions: ['wedgebook-source', 'import', 'module', 'default'] },
  ssr: {
    noExternal: true,
    resolve: { conditions: ['wedgebook-source', 'import', 'module', 'default'] },
  },
  build: {
    ssr: 'src/main.ts',
    target: 'node20',
    outDir: 'dist',
    emptyOutDir: false,
    rolldownOptions: {
      external: [...builtinModules, /^node:/],
      output: { entryFileNames: 'wedgebook.js', chunkFileNames: 'chunks/[name]-[hash].js' },
    },
  },
});
