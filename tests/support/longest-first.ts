/**
 * The order of test files: those that start browsers and processes first, and of each kind the longest, so that no long one
 * is left for the end and one core. What a file took last time is not known on a fresh machine; these take seconds anywhere.
 */
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Seconds on a quiet machine, roughly; a file that is not named is short. */
const SECONDS: Readonly<Record<string, number>> = {
  'visit/visit': 70,
  'visit/calm': 30,
  'cli/another-language': 30,
  'visit/offline': 29,
  'visit/keeping': 27,
  'visit/another-language': 12,
  'shelf/in-the-way': 8,
  'shelf/case-board': 7,
  'visit/slip': 6,
  'suspects/laws': 35,
  'board/addresses-learn-packages': 34,
  'rehearsal/remedies-score': 34,
  'heat/neighbours': 25,
  'cli/cli': 20,
  'board/kicad-real-boards': 20,
  'case/mid-work': 18,
  'case/proposal': 17,
  'rehearsal/practice': 17,
  'board/kicad-rails': 16,
  'trace/places': 14,
  'heat/recipe': 12,
  'heat/refit': 12,
  'heat/inverse': 12,
  'board/addresses-learn-laws': 12,
  'suspects/judgement': 12,
  'suspects/checks': 12,
  'case/remedies': 12,
  'cli/record': 10,
  'base/unused': 10,
  'spill/sampled': 10,
  'cli/safety': 8,
  'browser/measuring': 35,
  'browser/shelf': 30,
  'browser/practice': 30,
  'browser/own-board': 25,
  'browser/handback': 25,
  'browser/caselist': 25,
  'browser/start': 25,
  'browser/plan': 20,
  'browser/inspection': 20,
  'browser/report-names': 20,
}

const PROJECTS = ['system', 'node', 'browser']

const nameOf = ({ moduleId }: TestSpecification): string =>
  /tests\/(.+?)(?:\.browser)?\.test\.tsx?$/.exec(moduleId)?.[1] ?? moduleId

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ project }: TestSpecification): number => PROJECTS.indexOf(project.name.split(' ')[0] ?? '')
    const seconds = (file: TestSpecification): number => SECONDS[nameOf(file)] ?? 0
    // oxlint-disable-next-line unicorn/no-array-sort -- the usual order, which no array has
    const usual = await super.sort(files)
    return usual.toSorted((a, b) => rank(a) - rank(b) || seconds(b) - seconds(a))
  }
}
