// The mutation tool for one room, which `LIFTMAP_ROOM` names: two rooms may be drawn at once, each with its report and sandbox.
const room = process.env['LIFTMAP_ROOM'] ?? 'base'

export default {
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: '.run/mutants/vitest.config.ts' },
  tsconfigFile: 'no-tsconfig.json',
  tempDirName: `.mutants/${room}`,
  ignorePatterns: ['dist', '/public', '/.mutants'],
  reporters: ['json'],
  jsonReporter: { fileName: `node_modules/.cache/mutants/${room}.json` },
  thresholds: { high: 85, low: 85, break: null },
  timeoutMS: 60000,
  dryRunTimeoutMinutes: 30,
  disableTypeChecks: false,
  allowEmpty: true,
}
