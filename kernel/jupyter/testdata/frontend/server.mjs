// A Jupyter server of its own for one test: its own port, token, data and
// configuration folders below one temporary folder, so that neither the
// person's settings nor another test can change what is seen.
import { spawn } from 'node:child_process';
import { openSync, readFileSync } from 'node:fs';
import net from 'node:net';
import path from 'node:path';

export const sleep = ms => new Promise(done => setTimeout(done, ms));

const freePort = () => new Promise(done => {
  const s = net.createServer().listen(0, '127.0.0.1', () => {
    const { port } = s.address();
    s.close(() => done(port));
  });
});

/**
 * Starts the Python module (notebook or jupyter_server) whose settings are
 * those of app, with notes as the folder it shows.
 */
export async function startServer({ module, app, settings, notes, work }) {
  const port = await freePort();
  const token = 'frontend-test';
  const base = `http://127.0.0.1:${port}`;
  const logFile = path.join(work, 'server.log');
  const log = openSync(logFile, 'w');
  const set = { ip: '127.0.0.1', port, port_retries: 0, token, password: '', open_browser: 'False', ...settings(notes) };
  const server = spawn('/usr/bin/python3',
    ['-m', module, '--allow-root', ...Object.entries(set).map(([k, v]) => `--${app}.${k}=${v}`)], {
      stdio: ['ignore', log, log],
      env: {
        ...process.env,
        JUPYTER_RUNTIME_DIR: path.join(work, 'runtime'), JUPYTER_DATA_DIR: path.join(work, 'data'),
        JUPYTER_CONFIG_DIR: path.join(work, 'config'), IPYTHONDIR: path.join(work, 'ipython')
      }
    });
  let gone = false;
  server.on('exit', () => { gone = true; });
  const api = (address, init = {}) => fetch(base + address, {
    ...init, headers: { Authorization: `token ${token}`, 'Content-Type': 'application/json' }
  });
  for (let i = 0; ; i++) {
    if (gone || i > 300) {
      server.kill('SIGKILL');
      throw new Error('the Jupyter server does not answer:\n' + readFileSync(logFile, 'utf8'));
    }
    if (await api('/api/status').then(r => r.ok, () => false)) break;
    await sleep(100);
  }
  return {
    base, token,
    async stop() {
      for (const k of await api('/api/kernels').then(r => r.json(), () => [])) {
        await api(`/api/kernels/${k.id}`, { method: 'DELETE' }).catch(() => {});
      }
      server.kill('SIGTERM');
      for (let i = 0; i < 50 && !gone; i++) await sleep(100);
      if (!gone) server.kill('SIGKILL');
    }
  };
}
