// Bundles page.js with the packages beside it into build/; "prepare" runs it.
import { build } from 'esbuild';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const asURL = ['.png', '.gif', '.ttf', '.woff', '.woff2', '.eot'];
await build({
  entryPoints: ['page.js'], outfile: 'build/page.bundle.js',
  bundle: true, format: 'esm', minify: true, logLevel: 'warning',
  // What the packages expect of Node and of other bundlers.
  define: { 'process.env.NODE_ENV': '"production"', 'process.env': '{}', global: 'globalThis' },
  banner: { js: 'globalThis.process ??= {cwd: () => "/", env: {}};' },
  loader: { ...Object.fromEntries(asURL.map(ext => [ext, 'dataurl'])), '.md': 'text' },
  plugins: [{
    name: 'tilde', // before a package's name in a style sheet
    setup(b) {
      b.onResolve({ filter: /^~/ }, a => b.resolve(a.path.slice(1), { resolveDir: a.resolveDir, kind: a.kind }));
    }
  }, {
    name: 'svg', // text where a script imports it, a data URL in style sheets
    setup(b) {
      b.onResolve({ filter: /\.svg(\?.*)?$/ }, async a => {
        if (a.pluginData === 'again') return;
        const { resolveDir, kind, importer } = a;
        const r = await b.resolve(a.path.replace(/\?.*$/, ''), { resolveDir, kind, importer, pluginData: 'again' });
        return { path: r.path, namespace: kind === 'url-token' ? 'svg-url' : 'svg-text' };
      });
      b.onLoad({ filter: /.*/, namespace: 'svg-text' }, a => ({ contents: readFileSync(a.path), loader: 'text' }));
      b.onLoad({ filter: /.*/, namespace: 'svg-url' }, a => ({ contents: readFileSync(a.path), loader: 'dataurl' }));
      b.onLoad({ filter: /\.raw\.css$/ }, a => ({ contents: readFileSync(a.path), loader: 'text' }));
    }
  }]
});
mkdirSync('build', { recursive: true });
writeFileSync('build/page.html', `<!doctype html>
<meta charset="utf-8"><title>notebook</title>
<link rel="stylesheet" href="page.bundle.css">
<body data-jp-theme-light="true" data-jp-theme-name="JupyterLab Light" style="margin:0">
<script type="module" src="page.bundle.js"></script>
`);
