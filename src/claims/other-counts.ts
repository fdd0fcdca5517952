import type { Claim } from './claim.js';
import { conjunction } from './conjunction.js';
import type { ClaimContext, Verdict } from './model.js';
import type { Section } from './place/section.js';

type Counting = NonNullable<ClaimContext['counting']>;

/** How else a section may be counted that a claim names; nothing where the notation itself parts it from the rest. */
function otherCounts({ kind }: Section): readonly Counting[] {
  switch (kind) {
    case 'phrase':
    case 'antecedent':
    case 'consequent':
    case 'middle':
      return ['shorter phrases', 'longer phrases'];
    case 'dance':
      return ['dance with trio'];
    default:
      return [];
  }
}

const isSection = (value: object): value is { readonly kind: 'section'; readonly section: Section } =>
  'kind' in value && value.kind === 'section' && 'section' in value;

/** The sections that plain data names. */
function sectionsIn(content: unknown): readonly Section[] {
  if (typeof content !== 'object' || content === null) return [];
  if (isSection(content)) return [content.section];
  return Object.values(content).flatMap(sectionsIn);
}

/** What a claim that fails as its sections are counted is by another count. */
function reconsidered(claim: Claim, verdict: Verdict, context: ClaimContext): Verdict {
  const counts = [
    ...new Set(
      sectionsIn(claim.content)
        .flatMap(section => [section, ...('of' in section && section.of !== undefined ? [section.of] : [])])
        .flatMap(otherCounts),
    ),
  ];
  const other = counts.find(counting => {
    const word = claim.check({ ...context, counting, probing: true }).verdict;
    return word === 'holds' || (word === 'arguable' && counting !== 'dance with trio');
  });
  if (other === undefined) return verdict;
  return other === 'dance with trio'
    ? {
        ...verdict,
        verdict: 'arguable',
        code: 'C0010',
        reason: `true of the dance with its trio; without the trio ${verdict.reason}`,
      }
    : {
        ...verdict,
        verdict: 'undecided',
        code: 'C0010',
        reason: `${verdict.reason}; it is true where ${other} are counted than those between the cadences: name the bars that are meant`,
      };
}

/** A claim about a phrase that is only counted: where it fails by one count and not by another, the notes do not settle it. */
export function withOtherCounts(claim: Claim): Claim {
  if (claim.parts !== undefined) return conjunction(claim.parts.map(withOtherCounts));
  return {
    ...claim,
    check: context => {
      const verdict = claim.check(context);
      return verdict.verdict === 'fails' && context.counting === undefined && context.probing !== true
        ? reconsidered(claim, verdict, context)
        : verdict;
    },
  };
}
