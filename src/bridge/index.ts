export { isRequestName, mostSound, mostText, requests } from './requests.js';
export type { Payload, RequestName, Requests } from './requests.js';
export { menuCommands } from './answers.js';
export type {
  Answer,
  Answers,
  Bridge,
  FolderEntry,
  HostEvent,
  KnownTake,
  MenuCommand,
  OpenedLesson,
  Problem,
} from './answers.js';
export { askPath, channels, eventsPath, exposedName, styleNonceMark } from './transport.js';
export { fromWire, toWire } from './wire.js';
