import type { Turn } from './turn.js';

/** Bass lines, sequences and the motion of a line through a passage. */
export const motionTurns: readonly Turn[] = [
  [
    '<line> of <place> falls a fourth',
    '^<line> (outlines|traces|spans|descends through|falls through|covers) a descending fourth in <place>$',
  ],
  ['a lament bass', 'a (lament figure|lamento bass|lament-bass) in the bass'],
  [
    '<line> of <place> goes <words>',
    '^in <place>,? <line> (moves|goes|passes|runs|proceeds|progresses|descends|ascends|walks) (through|along|over|by way of) (the |)(notes |scale degrees |degrees |tones |steps |)<words>$',
    '^<line> (moves|goes|passes|runs|proceeds|progresses|walks) (through|along|over|by way of) (the |)(notes |scale degrees |degrees |tones |steps |)<words> in <place>$',
    '^<line> (in|of) <place> (moves|goes|passes|runs|proceeds|progresses|walks) (through|along|over|by way of) (the |)(notes |scale degrees |degrees |tones |steps |)<words>$',
    '^the (notes|scale degrees|degrees) of <line> (in|of) <place> are <words>$',
  ],
  [
    '<line> of <place> moves by step',
    '^<line> (proceeds|moves|goes|progresses|walks|travels|runs) (stepwise|in stepwise motion|in steps|by steps|conjunctly|in conjunct motion|by conjunct motion|only by step|by step only|in seconds) (in|through|throughout|over|across|during) <place>$',
    '^<place> (has|have|shows|show) a (stepwise|conjunct) <line>$',
    '^<line> (in|of) <place> (proceeds|moves|goes|progresses) (stepwise|in stepwise motion|in steps|conjunctly|in conjunct motion|by conjunct motion|only by step|by step only)$',
    '^<line> is (entirely |wholly |completely |purely |)(stepwise|conjunct) (in|through|throughout) <place>$',
    '^<place> of <line> (move|moves) (by step only|only by step|by step|stepwise)$',
    '^<line> (has|have) only steps in <place>$',
  ],
  [
    '<other place> repeats <one place> a <word> lower',
    '^<one place> (is|are) (sequenced|repeated|transposed|imitated|taken up|heard again|restated|copied) (down |)(a|by a) <word> (lower|down|below) in <other place>$',
    '^<other place> (is|are) (a |the )(sequential |)(repetition|repeat|restatement|copy|transposition|statement) of <one place> (a|by a|down a) <word> (lower|down|below)$',
    '^<other place> (repeat|repeats|restate|restates|take up|takes up|copy|copies|transpose|transposes|imitate|imitates) <one place> (down a|a|by a) <word> (lower|down|below)$',
    '^<other place> (repeat|repeats|restate|restates|copy|copies|transpose|transposes) <one place> down a <word>$',
  ],
  [
    '<other place> repeats <one place> a <word> higher',
    '^<one place> (is|are) (sequenced|repeated|transposed|imitated|taken up|heard again|restated|copied) (up |)(a|by a) <word> (higher|up|above) in <other place>$',
    '^<other place> (is|are) (a |the )(sequential |)(repetition|repeat|restatement|copy|transposition|statement) of <one place> (a|by a|up a) <word> (higher|up|above)$',
    '^<other place> (repeat|repeats|restate|restates|take up|takes up|copy|copies|transpose|transposes|imitate|imitates) <one place> (up a|a|by a) <word> (higher|up|above)$',
    '^<other place> (repeat|repeats|restate|restates|copy|copies|transpose|transposes) <one place> up a <word>$',
  ],
  [
    '<place> are a sequence',
    '^a sequence (takes up|occupies|fills|covers|spans|extends over|runs through|stretches over|lasts for) <place>$',
    '^<place> (is|are) (sequential|in sequence|built sequentially|constructed as a sequence|organized as a sequence)$',
    '^(the music |)(in |)<place> (proceeds|moves|unfolds|is treated) (sequentially|in sequence|by sequence)$',
  ],
  [
    '<line> of <place> is a sequence',
    '^<line> is (treated|developed|handled|built|continued) (in sequence|sequentially) in <place>$',
    '^<line> (in|of) <place> is (treated|developed|handled|built) (in sequence|sequentially)$',
    '^<line> (moves|proceeds|runs) (in sequence|sequentially) in <place>$',
  ],
  [
    '<place> are a falling sequence by thirds',
    '^<place> (are|form|is|make) (a |the |)(descending|falling)(-| )thirds?( sequence| progression sequence)$',
  ],
  [
    '<place> are a falling sequence by fifths',
    '^<place> (are|form|is|make) (a |the |)(descending|falling)(-| )fifths?( sequence)$',
  ],
  [
    '<place> are a real sequence and <place> are not a tonal sequence',
    '^the sequence (in|of) <place> is real,? (not|rather than|and not) tonal$',
  ],
  [
    '<place> are a tonal sequence and <place> are not a real sequence',
    '^the sequence (in|of) <place> is tonal,? (not|rather than|and not) real$',
  ],
  ['<place> are a <word> sequence', '^the sequence (in|of) <place> is (a |)<word>( one|)$'],
  [
    '<place> are a sequence of <number> statements',
    '^the sequence (in|of) <place> (has|consists of|is made of|comprises|contains|is built from|counts) <number> (statements|legs|links|copies|segments|units)$',
    '^the model is (stated|heard|heard|presented) <number> times in <place>$',
  ],
  [
    '<line> of <place> is <note>',
    '^<line> (keeps repeating|repeats|keeps returning to|insists on|reiterates|hammers out|stays fixed on|is stuck on|is held on|is anchored on|remains on|stays on|sits on) (the note |a |the |)<note> (in|through|throughout|for|during|over|for the whole of|all through) <place>$',
    '^<line> (in|of) <place> (keeps repeating|repeats|insists on|reiterates|stays fixed on|is anchored on|remains on|sits on) (the note |a |the |)<note>$',
  ],
  [
    '<line> of <place> goes <one number> <other number>',
    '^<line> (progresses|moves|goes|leaps|falls|rises|proceeds|steps) from <one number> to <other number> in <place>$',
  ],
  [
    'the bass of <place> is <note>',
    '^(the |)bass (note |)<note> is (repeated|held|kept|sustained|maintained|reiterated) (in|through|throughout|during|over|across) <place>$',
  ],
  ['from scale degree <number> to', 'from the <number>(st|nd|rd|th) degree to'],
  [
    'leaps up',
    '(makes a leap up|makes an upward leap of|takes a leap up|leaps upwards by|leaps upward by|leaps upwards|leaps upward|vaults up|bounds up|makes a leap upwards of|rises by leap of)',
  ],
  [
    'leaps down',
    '(makes a leap down|makes a downward leap of|takes a leap down|leaps downwards by|leaps downward by|leaps downwards|leaps downward|plunges down|plunges|makes a leap downwards of)',
  ],
  [
    '<line> of <place> leaps up a <word>',
    '^<line> (makes|takes|has|contains|includes) an (upward|ascending|rising) leap of a <word> in <place>$',
    '^(there is |we hear |)an (upward|ascending|rising) leap of a <word> (in|of) <line> (in|of|at) <place>$',
    '^<place> (has|contains|features) an (upward|ascending|rising) leap of a <word> in <line>$',
  ],
  [
    '<line> of <place> leaps down a <word>',
    '^<line> (makes|takes|has|contains|includes) a (downward|descending|falling) leap of a <word> in <place>$',
    '^(there is |we hear |)a (downward|descending|falling) leap of a <word> (in|of) <line> (in|of|at) <place>$',
    '^<place> (has|contains|features) a (downward|descending|falling) leap of a <word> in <line>$',
  ],
  ['falls in thirds', 'falls by thirds'],
  ['rises in thirds', 'rises by thirds'],
  [
    '<line> of <place> rises chromatically',
    '^<line> (in|of) <place> (ascends|climbs|creeps up|goes up|moves up|rises) (by semitone|by semitones|in semitones|by half step|by half steps|in half steps|semitone by semitone)$',
    '^<line> (ascends|climbs|creeps up|goes up|moves up|rises) (by semitones|in semitones|by half steps|in half steps|semitone by semitone) in <place>$',
    '^<place> (has|have|contains) (an ascending|a rising) chromatic (line|scale|descent|ascent) in <line>$',
    '^<line> (has|makes) (a chromatic ascent|an ascending chromatic line|a rising chromatic line) in <place>$',
  ],
  [
    '<line> of <place> falls chromatically',
    '^<line> (in|of) <place> (descends|creeps down|goes down|moves down|falls|sinks) (by semitone|by semitones|in semitones|by half step|by half steps|in half steps|semitone by semitone)$',
    '^<line> (descends|creeps down|goes down|moves down|falls|sinks) (by semitones|in semitones|by half steps|in half steps|semitone by semitone) in <place>$',
    '^<place> (has|have|contains) a (descending|falling) chromatic (line|scale|descent) in <line>$',
    '^<line> (has|makes) (a chromatic descent|a descending chromatic line|a falling chromatic line) in <place>$',
  ],
  [
    '<line> of <place> moves chromatically',
    '^<place> (has|have|contains|features) a chromatic (line|movement|motion) in <line>$',
    '^<line> (has|makes) a chromatic (line|movement) in <place>$',
  ],
  [
    '<line> of <place> fills its leap',
    '^the leap (of|in) <line> (in|of) <place> is (filled in|filled|filled in by step|recovered by step|balanced by step)$',
    '^<line> (fills in|fills) (its|the) leap in <place>$',
    '^after (its|the|a) leap in <place>,? <line> (falls back by step|steps back|turns back by step|moves back by step|returns by step|falls back stepwise)$',
    '^<line> fills in (its|the) leap (in|of) <place>( by step|)$',
  ],
  [
    'the leap of <place> is filled',
    '^the leap (in|of) <place> is (filled in by step|filled in|filled in stepwise|recovered by step|balanced by stepwise motion|filled by stepwise motion)$',
  ],
  ['<line> of <place> spans', '^<line> (in|of) <place> (ranges over|ranges through|extends over)'],
  [
    '<words> of <place> move in contrary motion',
    '^<words> (go|move|run|travel|pull|proceed|head|diverge) in opposite directions in <place>$',
    '^contrary motion (prevails|occurs|is used|is heard|is found|dominates) between <words> in <place>$',
    '^there is contrary motion between <words> in <place>$',
    '^<place> (has|have|shows|show|uses) contrary motion between <words>$',
    '^<words> (are in contrary motion|are in contrary motion to each other|move contrary to each other|move in contrary directions) in <place>$',
  ],
  [
    '<words> of <place> move in parallel motion',
    '^there is parallel motion between <words> in <place>$',
    '^<place> (has|have|shows|show|uses) parallel motion between <words>$',
    '^parallel motion (prevails|occurs|is used|is heard|is found) between <words> in <place>$',
  ],
  [
    '<words> of <place> move in oblique motion',
    '^there is oblique motion between <words> in <place>$',
    '^<place> (has|have|shows|show|uses) oblique motion between <words>$',
    '^oblique motion (prevails|occurs|is used|is heard|is found) between <words> in <place>$',
  ],
  ['consecutive', 'consecutive perfect'],
  ['parallel fifths', '(consecutive fifths|consecutive 5ths|parallel 5ths)'],
  ['parallel octaves', '(consecutive octaves|consecutive 8ves|parallel 8ves|parallel 8vas)'],
  [
    '<place> has parallel <word> between <words>',
    '^parallel <word> (occur|appear|are found|are heard|arise|result|creep in) between <words> (in|at|of) <place>$',
    '^<words> (make|form|produce|create|have|give|move in) parallel <word> in <place>$',
  ],
  [
    '<place> has parallel <word>',
    '^parallel <word> (occur|appear|are found|are heard|arise|result|creep in) (in|at|between) <place>$',
  ],
  [
    '<place> has hidden <word>',
    '^hidden <word> (occur|appear|are found|are heard|arise|result) (in|at) <place>$',
    '^(hidden|direct) <word> (occur|appear|are found|are heard|arise) (in|at) <place>$',
  ],
  [
    'the piece has no parallel <word>',
    '^there are no parallel <word> (anywhere |)(in the piece|at all)$',
    '^there are no parallel <word> anywhere( in the piece|)$',
  ],
  [
    '<place> has a cross relation between <one note> and <other note>',
    '^<one note> and <other note> (make|form|create|produce|give|are) a (cross relation|false relation|cross-relation) in <place>$',
  ],
  ['the leading tone in <line> of <place>', '^the leading (tone|note) (of|in) <line> (in|of) <place>'],
  [
    'the seventh of <place> resolves down by step',
    '^the seventh (falls|resolves|moves|descends) as it should in <place>$',
    '^the seventh (in|of) <place> (resolves|falls|moves|descends) (as it should|correctly|properly|regularly|normally|as expected|in the usual way)$',
  ],
  [
    'the leading tone of <place> resolves up by step',
    '^the leading (tone|note) (in|of) <place> (resolves|rises|moves) (as it should|correctly|properly|regularly|normally|as expected|in the usual way)( to the tonic|)$',
    '^the leading (tone|note) (rises|resolves) (as it should|as expected) in <place>$',
  ],
  [
    '<line> of <place> is <note>',
    '^<line> (keeps|holds|retains|has) the common (tone|note) <note> (in|through|between|over) <place>$',
  ],
];
