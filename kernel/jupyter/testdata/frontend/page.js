// One page with JupyterLab's own notebook panel in it: the same NotebookPanel,
// OutputArea, kernel connection and renderers that JupyterLab and Notebook 7
// use, without the application shell around them. ?path= and ?kernel= choose
// the notebook and the kernel; window.page is what the test script calls.
import '@jupyterlab/theme-light-extension/style/theme.css';
import '@jupyterlab/notebook/style/index.js';
import '@jupyterlab/json-extension/style/index.js';
import '@jupyterlab/mathjax-extension/style/fonts.css';

import { PageConfig } from '@jupyterlab/coreutils';
import {
  CodeMirrorEditorFactory, CodeMirrorMimeTypeService, EditorExtensionRegistry,
  EditorLanguageRegistry, EditorThemeRegistry, ybinding
} from '@jupyterlab/codemirror';
import { DocumentManager } from '@jupyterlab/docmanager';
import { DocumentRegistry } from '@jupyterlab/docregistry';
import { rendererFactory as jsonRenderer } from '@jupyterlab/json-extension';
import { createMarkdownParser } from '@jupyterlab/markedparser-extension';
import { MathJaxTypesetter } from '@jupyterlab/mathjax-extension';
import {
  NotebookActions, NotebookModelFactory, NotebookPanel, NotebookWidgetFactory, StaticNotebook
} from '@jupyterlab/notebook';
import { RenderMimeRegistry, standardRendererFactories } from '@jupyterlab/rendermime';
import { ServiceManager } from '@jupyterlab/services';
import { Widget } from '@lumino/widgets';

const query = new URLSearchParams(location.search);
PageConfig.setOption('baseUrl', '/');
PageConfig.setOption('wsUrl', location.origin.replace(/^http/, 'ws') + '/');
PageConfig.setOption('token', query.get('token'));

const languages = new EditorLanguageRegistry();
const editors = new CodeMirrorEditorFactory({
  languages,
  extensions: (() => {
    const themes = new EditorThemeRegistry();
    EditorThemeRegistry.getDefaultThemes().forEach(t => themes.addTheme(t));
    const registry = new EditorExtensionRegistry();
    EditorExtensionRegistry.getDefaultExtensions({ themes }).forEach(e => registry.addExtension(e));
    registry.addExtension({
      name: 'shared-model-binding',
      factory: ({ model }) => EditorExtensionRegistry.createImmutableExtension(
        ybinding({ ytext: model.sharedModel.ysource, undoManager: model.sharedModel.undoManager ?? undefined }))
    });
    return registry;
  })()
});
const rendermime = new RenderMimeRegistry({
  initialFactories: [...standardRendererFactories, jsonRenderer],
  latexTypesetter: new MathJaxTypesetter(),
  markdownParser: createMarkdownParser(languages)
});
const manager = new ServiceManager();
await manager.ready;
const registry = new DocumentRegistry();
const opener = { open: () => {}, opened: { connect: () => false, disconnect: () => false } };
const docs = new DocumentManager({ registry, manager, opener });
registry.addModelFactory(new NotebookModelFactory({}));
registry.addWidgetFactory(new NotebookWidgetFactory({
  name: 'Notebook', modelName: 'notebook', fileTypes: ['notebook'], defaultFor: ['notebook'],
  preferKernel: true, canStartKernel: true, rendermime,
  contentFactory: new NotebookPanel.ContentFactory({ editorFactory: editors.newInlineEditor }),
  mimeTypeService: new CodeMirrorMimeTypeService(languages),
  // every cell stays in the page, so that the test can look at all of them
  notebookConfig: { ...StaticNotebook.defaultNotebookConfig, windowingMode: 'none' }
}));

const panel = docs.open(query.get('path'), 'Notebook', { name: query.get('kernel') });
panel.id = 'notebook';
const fit = () => {
  panel.node.style.cssText = `position:absolute;width:${innerWidth}px;height:${innerHeight}px`;
  if (panel.isAttached) panel.processMessage(Widget.ResizeMessage.UnknownSize);
};
fit();
addEventListener('resize', fit);
Widget.attach(panel, document.body);
await panel.context.ready;
await panel.sessionContext.ready;

const nb = panel.content;
const select = i => {
  nb.activeCellIndex = i;
  nb.deselectAll();
};
let running = 0;
window.page = {
  async run(i) {
    select(i);
    running++;
    await NotebookActions.run(nb, panel.sessionContext).finally(() => { running--; });
  },
  insert(source) {
    select(nb.widgets.length - 1);
    NotebookActions.insertBelow(nb);
    nb.activeCell.model.sharedModel.setSource(source);
  },
  remove(i) {
    select(i);
    NotebookActions.deleteCells(nb);
  },
  source: i => nb.widgets[i].model.sharedModel.getSource(),
  edit: (i, source) => nb.widgets[i].model.sharedModel.setSource(source),
  save: () => panel.context.save(),
  interrupt: () => panel.sessionContext.session.kernel.interrupt(),
  restart: () => panel.sessionContext.restartKernel(),
  types: () => nb.widgets.map(c => c.model.type),
  idle: () => running === 0 && panel.sessionContext.session.kernel.status === 'idle',
  ready: true
};
