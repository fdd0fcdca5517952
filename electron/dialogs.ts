import { dialog } from 'electron';
import type { BrowserWindow, FileFilter } from 'electron';
import type { ChooseFile } from '../src/workshop/index.js';

const lessons: FileFilter = { name: 'Lessons', extensions: ['yaml', 'yml'] };
const scores: FileFilter = { name: 'Scores in ABC notation', extensions: ['abc'] };

/** Lets the user choose in the system's own dialogs. What is chosen there, and nothing else, is opened to the window. */
export const chooseIn =
  (window: () => BrowserWindow): ChooseFile =>
  async (what, near) => {
    const parent = window();
    if (what === 'save-as') {
      const saved = await dialog.showSaveDialog(parent, {
        title: 'Save the lesson as',
        defaultPath: near,
        filters: [lessons],
        properties: ['createDirectory', 'showOverwriteConfirmation'],
      });
      return saved.canceled || saved.filePath === '' ? undefined : saved.filePath;
    }
    const { canceled, filePaths } = await dialog.showOpenDialog(parent, {
      title: { lesson: 'Open a lesson', score: 'A lesson over which score?', folder: 'Choose a folder' }[
        what
      ],
      defaultPath: near,
      filters: what === 'lesson' ? [lessons] : what === 'score' ? [scores] : [],
      properties: what === 'folder' ? ['openDirectory', 'createDirectory'] : ['openFile'],
    });
    return canceled ? undefined : filePaths[0];
  };
