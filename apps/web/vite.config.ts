import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

/** In a darkroom there is often no network: everything the app is made of is kept by the browser. */
const offline = VitePWA({
  // A new version waits until the user asks for it: a reload never loses a row.
  registerType: 'prompt',
  // The app registers the worker itself, after its first paint.
  injectRegister: false,
  includeAssets: ['icon.svg', 'icon-192.png'],
  manifest: {
    id: '/',
    name: 'Wedgebook',
    short_name: 'Wedgebook',
    description:
      'From step-wedge readings to a paper grade, a toning bath and the next development.',
    lang: 'en',
    display: 'standalone',
    start_url: './',
    background_color: '#f7f5ef',
    theme_color: '#f7f5ef',
    icons: [
      { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any maskable' },
    ],
  },
  workbox: {
    globPatterns: ['**/*.{js,css,html,svg,png,webmanifest}'],
    cleanupOutdatedCaches: true,
    // What is loaded later comes from the copy on the first visit already.
    clientsClaim: true,
  },
});

export default defineConfig({
  resolve: { conditions: ['wedgebook-source', 'module', 'browser', 'development|production'] },
  build: {
    target: 'es2022',
    sourcemap: true,
    reportCompressedSize: true,
    // Kilobytes before gzip; what counts, 200 kB of gzip in the first load, is tested.
    chunkSizeWarningLimit: 600,
    // All that the page opens with comes in one file: one request, one dictionary of gzip.
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } },
    },
  },
  plugins: [offline],
  preview: { port: 4173 },
});
