// What differs between the front ends. Each has the server's module and
// settings, and functions on the browser's page. A cell is counted from 0 over
// all cells, text too.

/** The classic notebook's own page, from the Debian package jupyter-notebook. */
const classic = {
  module: 'notebook', app: 'NotebookApp',
  settings: notes => ({ notebook_dir: notes }),
  address: (file, token) => `/notebooks/${file}?token=${token}`,
  cells: '#notebook-container > .cell',
  outputs: '.output_wrapper',
  idle: () => !!document.querySelector('.kernel_idle_icon')
    && Jupyter.notebook.get_cells().every(c => !c.element.hasClass('running')),
  ready: () => window.Jupyter?.notebook?._fully_loaded && Jupyter.notebook.kernel?.is_connected()
    && !!document.querySelector('.kernel_idle_icon'),
  // As a person does: click the cell, Ctrl+Enter.
  async start(page, i) {
    await page.locator('#notebook-container > .cell').nth(i).locator('.input_area').click();
    await page.keyboard.press('Control+Enter');
  },
  interrupt: page => page.click('button[data-jupyter-action="jupyter-notebook:interrupt-kernel"]'),
  edit: (page, i, source) => page.evaluate(([n, s]) => Jupyter.notebook.get_cell(n).set_text(s), [i, source]),
  insert: (page, source) => page.evaluate(s => Jupyter.notebook.insert_cell_at_bottom('code').set_text(s), source),
  remove: (page, i) => page.evaluate(n => Jupyter.notebook.delete_cells([n]), i),
  save: page => page.evaluate(() => Jupyter.notebook.save_notebook()),
  restart: page => page.evaluate(() => new Promise((done, failed) => Jupyter.notebook.kernel.restart(done, failed))),
  source: (page, i) => page.evaluate(n => Jupyter.notebook.get_cell(n).get_text(), i),
  types: page => page.evaluate(() => Jupyter.notebook.get_cells().map(c => c.cell_type))
};

/**
 * JupyterLab's notebook panel, which Notebook 7 shows too, bundled into one
 * page and served by the Debian package python3-jupyter-server.
 */
const lab = {
  module: 'jupyter_server', app: 'ServerApp',
  settings: notes => ({ root_dir: notes, extra_static_paths: JSON.stringify([`${process.env.OHMWRIGHT_FRONTEND}/build`]) }),
  address: (file, token) => `/static/page.html?token=${token}&path=${file}&kernel=ohmwright`,
  cells: '.jp-Notebook .jp-Cell',
  outputs: '.jp-Cell-outputArea',
  idle: () => page.idle(),
  ready: () => window.page?.ready && page.idle(),
  // The click makes a cell active; Ctrl+Enter belongs to the application,
  // which is not in this page, so the action behind it is called.
  async start(page, i) {
    await page.locator('.jp-Notebook .jp-Cell').nth(i).locator('.jp-InputArea-editor').click();
    await page.evaluate(n => { window.page.run(n); }, i);
  },
  interrupt: page => page.evaluate(() => window.page.interrupt()),
  edit: (page, i, source) => page.evaluate(([n, s]) => window.page.edit(n, s), [i, source]),
  insert: (page, source) => page.evaluate(s => window.page.insert(s), source),
  remove: (page, i) => page.evaluate(n => window.page.remove(n), i),
  save: page => page.evaluate(() => window.page.save()),
  restart: page => page.evaluate(() => window.page.restart()),
  source: (page, i) => page.evaluate(n => window.page.source(n), i),
  types: page => page.evaluate(() => window.page.types())
};

export const fronts = { classic, lab };
