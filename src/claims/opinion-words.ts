/**
 * Words by which a sentence speaks of what no note can settle. Common English, gathered from what teachers write (from memory); each class
 * says what the words are about.
 */

/** What such a sentence is about. */
export type OpinionMatter =
  | 'taste'
  | 'feeling'
  | 'history'
  | 'intention'
  | 'manner of performance'
  | 'what listeners expect'
  | 'an instruction';

const adverbOf = (adjective: string): string =>
  /[^aeiou]y$/u.test(adjective)
    ? `${adjective.slice(0, -1)}ily`
    : /[^l]le$/u.test(adjective)
      ? `${adjective.slice(0, -1)}y`
      : adjective.endsWith('ic')
        ? `${adjective}ally`
        : `${adjective}ly`;
const withAdverbs = (adjectives: string): readonly string[] =>
  adjectives.split(/\s+/u).flatMap(each => [each, adverbOf(each)]);
const words = (list: string): readonly string[] => list.trim().split(/\s*,\s*/u);

/** Words that stand beside a noun or a verb: without them the sentence is still one. */
export const attributes: Readonly<Partial<Record<OpinionMatter, readonly string[]>>> = {
  taste: [
    ...withAdverbs(
      'beautiful ugly lovely wonderful magical marvellous splendid brilliant masterly superb elegant graceful charming delightful attractive pretty pleasant unpleasant clumsy awkward crude banal trivial boring tedious dull interesting fascinating impressive convincing unconvincing effective ineffective exciting striking remarkable extraordinary innovative inventive imaginative ingenious clever witty subtle bold daring adventurous conventional unusual typical strange odd weird exotic picturesque satisfying unsatisfying perfect-sounding famous noble majestic masterful inevitable unforgettable memorable logical natural-sounding strong-willed powerful rich sweet shocking surprising unexpected astonishing amazing arresting stunning balanced-sounding superfluous',
    ),
    ...words(
      'more beautiful, finest, loveliest, well shaped, well-shaped, well balanced, well-balanced, well written, well-written, well made, well-made, better, best, worse, worst, weaker, weakest, colourful, colorful, balanced, of great beauty, probably, perhaps, maybe, arguably, wrong, too long, too short, too loud, too soft, too fast, too slow',
    ),
  ],
  feeling: [
    ...withAdverbs(
      'sad happy joyful joyous gloomy melancholy melancholic tender mournful sorrowful painful bitter anguished anxious nervous agitated restless uneasy calm serene tranquil peaceful consoling comforting soothing hopeful hopeless desperate triumphant victorious heroic tragic comic comical humorous playful cheerful merry jolly carefree gentle warm cold icy hollow dark bright gleaming radiant luminous sombre somber ominous sinister menacing threatening frightening terrifying eerie mysterious mystical solemn holy sacred devout pious romantic passionate ardent fervent yearning longing wistful nostalgic poignant touching moving expressive lyrical emotional sentimental dramatic violent fierce furious angry stormy tense intense resigned weary lonely intimate delicate fragile haunting dreamy questioning hesitant timid proud defiant mocking ironic innocent naive naïve pastoral rustic martial ethereal heavenly celestial wild plaintive lively energetic serious lighthearted bleak desolate',
    ),
    ...words(
      'saddest, happiest, darkest, brightest, warmest, full of hope, full of longing, unstable, stable-sounding',
    ),
  ],
  intention: words(
    'deliberate, deliberately, intentional, intentionally, unintentional, unintentionally, on purpose, purposely, consciously',
  ),
  history: words('typically, traditionally, historically, originally, famously'),
};

/** Words that make the sentence one of its class, whatever else stands in it. */
export const statements: Readonly<Record<OpinionMatter, readonly string[]>> = {
  taste: words(
    'beauty, is original, very original, highly original, originality, masterpiece, genius, stroke of genius, mistake, fault of style, cliche, cliché, trick, gem, jewel, highlight, peak of the piece, emotional peak, emotional high point, good taste, bad taste, I love, I like, I dislike, I hate, I prefer, I find, I think, I believe, I admire, loved, relief, surprise, surprises, a delight, a joy, a shame, a pity, a miracle, stranger than, interesting than',
  ),
  feeling: words(
    'mood, moods, emotion, emotions, feeling, feelings, sadness, sorrow, grief, pain, joy, happiness, gladness, hope, despair, fear, anger, rage, love, in love, passion, anxiety, consolation, comfort, peace, suspense, serenity, tenderness, melancholia, nostalgia, loneliness, anguish, ray of light, ray of hope, ray of sunshine, sunlight, cloud, shadow, darkness, death, heart, soul, tears, weeps, weep, cries, sighs, sigh, laughs, smiles, dreams, sobs, laments the, mourns, rejoices, prayer, farewell, heaven, symbol, tells a story, tell a story, imitates the sound, atmosphere, character is, magic, drama, reminds, remind, reminiscent, resembles',
  ),
  history: words(
    'wrote, composed, composes, composer, composers, published, publisher, premiered, premiere, première, dedicated, dedicates, commissioned, performed in, first performed, first heard, rediscovered, forgotten, criticised, criticized, praised, attacked by, admired, admired by, popular, contemporary, contemporaries, critic, critics, century, centuries, era, epoch, Middle Ages, Baroque, Renaissance, Romantic era, Classical era, Romanticism, Classicism, Enlightenment, history, historical, historians, tradition, traditions, biography, born, died, was deaf, was ill, was blind, teacher, pupil, friend, wife, husband, patron, court, church, wedding, funeral, revolution, revolutionary, manuscript, autograph, sketch, sketches, first edition, edition, editions, editor, editors, added by, is based on, are based on, modelled on, modeled on, borrowed from, quoted from, quotation, allusion, alludes to, refers to, title, influenced, influence, inspired, inspiration, style, years later, years earlier, his day, her day, its day, learned it, learnt it, goes back to, typical of',
  ),
  intention: words(
    'intended, intends, intention, intentions, wanted, wants to, was meant, were meant, is meant, are meant, meant to, meant as, supposed to, was chosen, were chosen, chose, decided, decides to, plans, planned, purpose, aims to, tries to, tried to, for effect',
  ),
  'manner of performance': words(
    'should be played, should be sung, should play, should sing, should be, must be, must not, should not, should, may take, ought to, needs a, need a, played softly, played loudly, played slowly, played quickly, played too, sung softly, hard to play, hard to sing, easy to play, easy to sing, difficult, performer, performers, performance, performances, pianist, pianists, singers, player, players, conductor, organist, violinist, interpretation, tempo should, in practice, touch, fingering, technically demanding, technically difficult',
  ),
  'what listeners expect': words(
    'listener, listeners, audience, audiences, congregation, the ear, our ears, my ears, expects, expect, nobody expects, everyone, everybody, nobody, people, public, is fooled, are fooled, is surprised, are surprised, is led astray, are led astray, hearer, hearers',
  ),
  'an instruction': words('imagine, close your eyes, do not rush, think of'),
};

/** Words that only lean on what is said; they can be left out of a claim and make no opinion. */
export const fillers = words(
  'clearly, obviously, certainly, surely, simply, of course, indeed, rather, quite, really, very',
);

/** Verbs of feeling, unless something that can be checked follows. */
export const portrayals = words(
  'expresses, express, evokes, evoke, conveys, convey, portrays, portray, depicts, depict, symbolizes, symbolises, symbolize, symbolise, represents, represent, stands for, stand for, paints, paint, describes, describe, illustrates',
);

/** Verbs that tell a listener what to do, at the beginning of a sentence. */
export const instructions = words(
  'listen to, listen for, listen how, listen, notice how, notice that, notice, note how, note that, hear how, hear the, watch how, watch the, watch, look at, play, sing, hum, clap, count, compare, try, remember, think, feel how, feel the, let us, observe how, observe that, observe, enjoy, pay attention to, mark how',
);

/**
 * Words that are about taste or feeling unless something that can be checked follows: `the melody sings`, but `the soprano sings C5`;
 * `bar 8 sounds hollow`, but `bar 8 sounds like V`.
 */
export const openVerbs = words(
  'sounds, sound, seems, seem, feels, feel, appears, looks like, comes as, come as, comes across as, acts as, is like, are like, asks, ask, asks for, answers, speaks, speak, speaks of, says, tells, means, mean, suggests, suggest, hints at, promises, promise, creates, create, builds, build, brings, bring, gives, give, makes, make, takes, grows, grow, becomes, turns into, sings, sing, breathes, breathe, relaxes, relax, floats, float, flows, flow, shines, shine, glows, increases the, increase the, deepens, softens, needs, need, deserves, written, smooth, smoothly, tension, tensions, colour, color, colours, colors, dissolves, collapses, explodes, unfinished, weak, strong, light, heavy, quiet, loud, soft, expectation, has the character of, has the quality of, plays with, belongs to, is full of, are full of',
);

/** What can be heard or seen in a score and yet has no rule here: form beyond the phrase, genre, manner of playing, motives. */
export const mattersWithoutRule = words(
  'waltz, oom-pah, march, minuet, menuet, gavotte, sarabande, gigue, allemande, courante, bourrée, polonaise, mazurka, barcarolle, nocturne, berceuse, scherzo, étude, etude, prelude, toccata, fantasia, invention, chorale, hymn, anthem, folk song, folk tune, folk dance, carol, lullaby, dance, tango, ragtime, blues, ballad, aria, recitative, motet, madrigal, passacaglia, chaconne, overture, symphony, concerto, ostinato, walking bass, canon, fugue, fugal, imitation, imitates, imitative, stretto, rondo, sonata form, binary form, ternary form, coda, codetta, introduction, transition, motif, motive, theme, climax, melody and accompaniment, melody with accompaniment, accompanied melody, legato, staccato, articulation, rubato, tessitura, timbre, orchestration, hypermeter, hypermetre, polyrhythm, call and response, phrase structure, phrase lengths, phrases, first phrase, second phrase, third phrase, last phrase, largest leap, smallest leap, is confirmed by, longest note, shortest note, speeds up, slows down, accelerates, new key is established, climactic, each phrase, every phrase, almost the same, nearly the same',
);
