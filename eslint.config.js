import tseslint from 'typescript-eslint';

/** Data flows one way. A folder imports only from the folders listed for it, each through its index. */
const mayImport = {
  diagnostics: [],
  score: ['diagnostics'],
  harmony: ['diagnostics', 'score'],
  claims: ['diagnostics', 'score', 'harmony'],
  lesson: ['diagnostics', 'score', 'harmony', 'claims'],
  timeline: ['diagnostics', 'score', 'harmony', 'claims', 'lesson'],
  sound: ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline'],
  output: ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline', 'sound'],
  player: ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline'],
  bridge: [],
  studio: ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline', 'player', 'bridge'],
  workshop: ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline', 'sound', 'output', 'bridge'],
  cli: ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline', 'sound', 'output', 'workshop'],
};
const pure = ['diagnostics', 'score', 'harmony', 'claims', 'lesson', 'timeline', 'bridge'];
const folders = Object.keys(mayImport);

const direction = folder => {
  const forbidden = folders.filter(other => other !== folder && !mayImport[folder].includes(other));
  const patterns = [
    {
      regex: `^(\\.\\./)+(${folders.filter(f => f !== folder).join('|')})/(?!index\\.js$)`,
      message: 'Another folder is entered through its index.js only; export what you need there.',
    },
  ];
  if (forbidden.length > 0) {
    patterns.push({
      regex: `^(\\.\\./)+(${forbidden.join('|')})/`,
      message: `Data flows one way (score -> harmony -> claims -> lesson -> timeline -> sound -> output); src/${folder} comes before this folder and must not know it. Move the shared part inward.`,
    });
  }
  if (pure.includes(folder)) {
    patterns.push({
      regex: '^node:|^(fs|path|os|child_process|worker_threads)$',
      message: `src/${folder} is pure so that the command line, the desktop shell and a browser run the same code: no file system or process here. Pass data in from a shell.`,
    });
  }
  return patterns;
};

const impure = [
  'process',
  'console',
  'document',
  'window',
  'navigator',
  'fetch',
  'setTimeout',
  'setInterval',
  'performance',
  'localStorage',
];

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**', 'coverage/**', 'tests/fixtures/**'] },
  ...tseslint.configs.strict,
  {
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ['eslint.config.js'] },
        tsconfigRootDir: import.meta.dirname,
      },
    },
  },
  {
    files: ['**/*.ts'],
    rules: {
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      eqeqeq: 'error',
    },
  },
  ...folders.map(folder => ({
    files: [`src/${folder}/**/*.ts`],
    rules: { 'no-restricted-imports': ['error', { patterns: direction(folder) }] },
  })),
  {
    files: pure.map(folder => `src/${folder}/**/*.ts`),
    rules: {
      'no-restricted-globals': [
        'error',
        ...impure.map(name => ({
          name,
          message: 'The core is pure: no clock, DOM, console or process. Take the value as a parameter.',
        })),
      ],
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'random',
          message: 'The core is deterministic: equal input gives equal output.',
        },
        { object: 'Date', property: 'now', message: 'The core has no clock: take the time as a parameter.' },
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: "NewExpression[callee.name='Date']",
          message: 'The core has no clock: take the time as a parameter.',
        },
      ],
    },
  },
);
