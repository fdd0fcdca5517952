import { lessonJsonSchema } from '../lesson/index.js';

/** A key of the lesson's format, or a value that a key takes. */
export interface SchemaWord {
  readonly word: string;
  readonly about?: string;
}

/** The parts of JSON Schema (2020-12) that the lesson's schema is made of. */
interface SchemaNode {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly type?: string;
  readonly examples?: readonly unknown[];
  readonly default?: unknown;
}

const alternatives = (node: SchemaNode): readonly SchemaNode[] => [
  node,
  ...(node.anyOf ?? []).flatMap(alternatives),
];

const isNode = (value: unknown): value is SchemaNode => typeof value === 'object' && value !== null;

let read: SchemaNode | undefined;
const root = (): SchemaNode => (read ??= lessonJsonSchema());

/** What may stand at a path of keys and items (`-`); several where the schema leaves a choice. */
const nodesAt = (path: readonly string[]): readonly SchemaNode[] =>
  path.reduce<readonly SchemaNode[]>(
    (nodes, name) =>
      nodes.flatMap(node => {
        if (name === '-') return node.items === undefined ? [] : alternatives(node.items);
        const inner = node.properties?.[name] ?? node.additionalProperties;
        return isNode(inner) ? alternatives(inner) : [];
      }),
    alternatives(root()),
  );

/** The first words of a description. */
const briefly = (description: string | undefined): { readonly about?: string } => {
  const about = description?.split(/[.;:](?:\s|$)/u)[0];
  return about === undefined ? {} : { about };
};

/** The keys of the mapping that may stand at a path. */
export const keysAt = (path: readonly string[]): readonly SchemaWord[] =>
  nodesAt(path).flatMap(({ properties = {} }) =>
    Object.entries(properties).map(([word, { description }]) => ({ word, ...briefly(description) })),
  );

/** A value as YAML writes it on one line. */
function yaml(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(yaml).join(', ')}]`;
  if (isNode(value))
    return `{ ${Object.entries(value)
      .map(([name, inner]) => `${name}: ${yaml(inner)}`)
      .join(', ')} }`;
  return String(value);
}

/** The values that may stand at a path: those that the schema lists, else its examples. */
export function valuesAt(path: readonly string[]): readonly SchemaWord[] {
  const nodes = nodesAt(path);
  const about = nodes.find(({ description }) => description !== undefined)?.description;
  const fixed = nodes.flatMap(node => [
    ...(node.enum ?? []),
    ...('const' in node ? [node.const] : []),
    ...(node.type === 'boolean' ? [true, false] : []),
  ]);
  const usual = nodes.find(node => node.default !== undefined)?.default;
  const values = fixed.length > 0 ? fixed : nodes.flatMap(({ examples = [] }) => examples);
  return [...new Set(values.map(yaml))].map(word =>
    usual !== undefined && word === yaml(usual)
      ? { word, about: 'as it is without' }
      : { word, ...briefly(about) },
  );
}
