// Builds the screen into the Python package, where the server finds it.
import { fileURLToPath } from "node:url";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

const from = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  plugins: [svelte()],
  resolve: {
    alias: { $lib: from("./src/lib"), $screens: from("./src/screens") },
    ...(process.env.VITEST ? { conditions: ["browser"] } : {}),
  },
  build: {
    outDir: from("../src/braidwright/web/screen"),
    emptyOutDir: true,
    target: "es2022",
    // The strict content policy of the server allows no data: addresses and no inline script.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 800,
  },
  test: { environment: "jsdom", include: ["tests/**/*.test.ts"] },
});
