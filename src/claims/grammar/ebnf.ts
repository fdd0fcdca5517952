import type { Shape } from './shape.js';

type Named = Extract<Shape, { readonly name: string }>;

/** Rules and tokens in the order in which a reader meets them. */
function namedParts(root: Shape): { readonly rules: readonly Named[]; readonly tokens: readonly Named[] } {
  const rules = new Map<string, Named>();
  const tokens = new Map<string, Named>();
  const visit = (shape: Shape): void => {
    switch (shape.kind) {
      case 'text':
      case 'character':
        return;
      case 'sequence':
        shape.parts.forEach(visit);
        return;
      case 'choice':
        shape.options.forEach(visit);
        return;
      case 'optional':
        visit(shape.of);
        return;
      case 'repeated':
        visit(shape.of);
        if (shape.separator !== undefined) visit(shape.separator);
        return;
      case 'rule':
        if (rules.has(shape.name)) return;
        rules.set(shape.name, shape);
        visit(shape.body());
        return;
      case 'token':
        if (tokens.has(shape.name)) return;
        tokens.set(shape.name, shape);
        visit(shape.body);
    }
  };
  visit(root);
  return { rules: [...rules.values()], tokens: [...tokens.values()] };
}

const isEmpty = (shape: Shape): boolean => shape.kind === 'sequence' && shape.parts.every(isEmpty);

/** An expression, in brackets where it stands beside others and would fall apart. */
function print(shape: Shape, beside: boolean): string {
  const bracketed = (body: string, falls: boolean): string => (falls && beside ? `( ${body} )` : body);
  switch (shape.kind) {
    case 'text':
      return shape.text.includes('"') ? `'${shape.text}'` : `"${shape.text}"`;
    case 'character':
      return `[${shape.class}]`;
    case 'sequence': {
      const parts = shape.parts.filter(part => !isEmpty(part));
      if (parts.length === 1 && parts[0] !== undefined) return print(parts[0], beside);
      return bracketed(parts.map(part => print(part, true)).join(' '), parts.length > 1);
    }
    case 'choice':
      return bracketed(
        shape.options.map(option => print(option, false)).join(' | '),
        shape.options.length > 1,
      );
    case 'optional':
      return `${print(shape.of, true)}?`;
    case 'repeated':
      return shape.separator === undefined || isEmpty(shape.separator)
        ? `${print(shape.of, true)}+`
        : bracketed(
            `${print(shape.of, true)} ( ${print(shape.separator, true)} ${print(shape.of, true)} )*`,
            true,
          );
    case 'rule':
    case 'token':
      return shape.name;
  }
}

function printRule(name: string, body: Shape): string {
  if (body.kind !== 'choice') return `${name} ::= ${print(body, false)}`;
  return `${name}\n    ::= ${body.options.map(option => print(option, false)).join('\n      | ')}`;
}

/**
 * The grammar of a parser in the notation of Extensible Markup Language (XML) 1.0, section 6: `?` optional, `+` one or more,
 * `*` any number, `|` or, `[A-G]` one character of a class.
 */
export function printGrammar(root: Shape): string {
  const { rules, tokens } = namedParts(root);
  const section = (parts: readonly Named[]): string =>
    parts.map(part => printRule(part.name, part.kind === 'rule' ? part.body() : part.body)).join('\n\n');
  const parts = [
    '/* Phrases: words are separated by white space; the case of a word in quotes does not matter. */',
    section(rules),
    '/* Tokens: no white space unless it is written; upper and lower case are different. */',
    section(tokens),
  ];
  return `${parts.join('\n\n')}\n`;
}
