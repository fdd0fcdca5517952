/** The packager's own schema judges its configuration: a misspelt option would otherwise be found on the day of a release. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { root } from './shell.js';

const require = createRequire(import.meta.url);
const schemaPath = createRequire(require.resolve('electron-builder')).resolve('app-builder-lib/scheme.json');
const schema = JSON.parse(readFileSync(schemaPath, 'utf8')) as object;
const configuration = parse(readFileSync(join(root, 'electron-builder.yml'), 'utf8')) as Record<
  string,
  unknown
>;

describe('the configuration of the packager', () => {
  const isValid = new Ajv({ strict: false, allErrors: true, validateFormats: false }).compile(schema);

  it('is what the packager reads', () => {
    isValid(configuration);
    expect(isValid.errors ?? []).toEqual([]);
    expect(isValid({ ...configuration, misspelt: true })).toBe(false);
  });

  it('asks for the microphone where the system would refuse it otherwise', () => {
    // Apple, "Requesting authorization for media capture on macOS": a reason in Info.plist, and an entitlement under the hardened runtime.
    const mac = configuration['mac'] as Readonly<Record<string, unknown>>;
    expect(mac['extendInfo']).toHaveProperty('NSMicrophoneUsageDescription');
    for (const kind of ['entitlements', 'entitlementsInherit'])
      expect(readFileSync(join(root, String(mac[kind])), 'utf8')).toMatch(
        /<key>com\.apple\.security\.device\.audio-input<\/key>\s*<true\/>/u,
      );
  });

  it('switches off what turns the program into another one', () => {
    // Electron documentation, "Electron Fuses": what each of them lets an attacker on the machine do.
    expect(configuration['electronFuses']).toMatchObject({
      runAsNode: false,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      grantFileProtocolExtraPrivileges: false,
    });
  });
});
