import { app, Menu } from 'electron';
import type { MenuItemConstructorOptions } from 'electron';
import type { MenuCommand } from '../src/bridge/index.js';

/** The menu of the application. Its commands are carried out by the window that is in front. */
export function menu(tell: (command: MenuCommand) => void): Menu {
  const command = (label: string, name: MenuCommand, accelerator?: string): MenuItemConstructorOptions => ({
    label,
    ...(accelerator === undefined ? {} : { accelerator }),
    click: () => {
      tell(name);
    },
  });
  const separator: MenuItemConstructorOptions = { type: 'separator' };
  return Menu.buildFromTemplate([
    ...(process.platform === 'darwin' ? [{ role: 'appMenu' } as const] : []),
    {
      label: 'Lesson',
      submenu: [
        command('New from a score…', 'new', 'CmdOrCtrl+N'),
        command('Open…', 'open', 'CmdOrCtrl+O'),
        command('Open a recent one…', 'recent', 'CmdOrCtrl+Shift+O'),
        separator,
        command('Save', 'save', 'CmdOrCtrl+S'),
        command('Save as…', 'save-as', 'CmdOrCtrl+Shift+S'),
        separator,
        command('Narration', 'narration', 'CmdOrCtrl+Shift+R'),
        command('Build the walkthrough…', 'export', 'CmdOrCtrl+E'),
        separator,
        { role: 'close' },
        ...(process.platform === 'darwin' ? [] : [{ role: 'quit' } as const]),
      ],
    },
    {
      label: 'Edit',
      submenu: [
        { role: 'undo' },
        { role: 'redo' },
        separator,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
        separator,
        command('Find in the text…', 'find', 'CmdOrCtrl+F'),
      ],
    },
    {
      label: 'View',
      submenu: [
        { role: 'resetZoom' },
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { role: 'togglefullscreen' },
        ...(app.isPackaged ? [] : [separator, { role: 'toggleDevTools' } as const]),
      ],
    },
    { role: 'windowMenu' },
    { role: 'help', submenu: [command('Keys and pointer', 'help', 'F1')] },
  ]);
}
