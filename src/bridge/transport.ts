/**
 * How the window reaches its host. In the desktop shell the preload puts a `Bridge` on the window under `exposedName`. Where there is
 * none the window speaks with the local server that it came from: `POST askPath + name` with the payload `toWire` as `application/json`,
 * answered by an `Answer` `toWire` (or, with a status that is no success, by words), and an EventSource of `eventsPath`, each message of which is a `HostEvent` as JSON. The server knows the window by a cookie
 * that it gave it.
 */
export const exposedName = 'barwiseHost';
export const askPath = '/ask/';
export const eventsPath = '/events';
/** Channels between the preload and the main process of the desktop shell. */
export const channels = { ask: 'ask', event: 'event' } as const;
/**
 * The page is sent with a content security policy that allows style elements with this nonce only; the host writes it into
 * `<meta name="style-nonce" content="...">` in place of these words, and the window hands it to libraries that add styles.
 */
export const styleNonceMark = 'STYLE-NONCE';
