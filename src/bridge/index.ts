export { isRequestName, mostSound, mostText, readPayload, requests } from './requests.js';
export type { Payload, ReadPayload, RequestName, Requests } from './requests.js';
export { menuCommands } from './answers.js';
export type {
  Answer,
  Answers,
  Bridge,
  Cut,
  CutOffTape,
  FolderEntry,
  HostEvent,
  KnownTake,
  MenuCommand,
  OpenedLesson,
  Problem,
  Recording,
  SpokenPart,
} from './answers.js';
export { askPath, channels, eventsPath, exposedName, styleNonceMark } from './transport.js';
export { fromWire, toWire } from './wire.js';
