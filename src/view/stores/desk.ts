/** A desk: the stores and workers of one running app, made once and handed down; tests make their own. */
import type { WorkerClient, WorkerLike } from '../../workers/client.ts'
import { createSteadyClient } from '../../workers/steady.ts'
import type { CaseShelf } from '../shelf/caseShelf.ts'
import { type FileStore, fileStoreInMemory } from '../shelf/fileStore.ts'
import type { FolderKeeper } from '../shelf/folderKeeper.ts'
import { caseShelfInMemory } from '../shelf/memoryShelf.ts'
import { type BoardReader, createBoardReader } from './boardReader.ts'
import { type CaseStore, createCaseStore } from './caseStore.ts'
import { type CheckStore, createCheckStore } from './checkStore.ts'
import { type CopyStore, createCopyStore } from './copyStore.ts'
import { createEarlierRuns, createTallyOfCase } from './derive.ts'
import { createPlanner, type Planner } from './planner.ts'
import { createPracticeDesk, type PracticeDesk } from './practiceDesk.ts'
import { createPhotoStore, type PhotoStore } from './photoStore.ts'
import { createPlanStore, type PlanStore } from './planStore.ts'
import { type Ledger, ledgerIn } from './ledger.ts'
import { createProofOfCase } from './proofOfCase.ts'
import { createReadingStore, type ReadingStore } from './readingStore.ts'
import { createResultStore, type ResultStore } from './resultStore.ts'
import { createSavingStore, type SavingStore } from './savingStore.ts'
import { createScreenStore, type ScreenStore } from './screenStore.ts'
import type { Shelf } from './shelf.ts'
import { type ShopDetailsStore, shopDetailsIn } from './shopDetails.ts'
import { type ShopWords, shopWordsInMemory } from './shopWords.ts'
import { type NewVersion, onlyThisVersion } from '../version/newVersion.ts'

export interface Desk {
  readonly cases: CaseStore
  readonly readings: ReadingStore
  readonly results: ResultStore
  readonly plan: PlanStore
  /** What to look at or measure next. */
  readonly nextChecks: CheckStore
  readonly screen: ScreenStore
  /** Photos as they lie under the drawing. */
  readonly photos: PhotoStore
  readonly saving: SavingStore
  /** Copies of cases in a folder of the user's own. */
  readonly copies: CopyStore
  /** Undefined where the browser offers no folders. */
  readonly folders: FolderKeeper | undefined
  /** Reasons about the board on the desk; answers while the hand moves. */
  readonly reasoner: WorkerClient
  /** Reads long files, so that reasoning never waits for them. */
  readonly reader: WorkerClient
  /** Solves heat and plans; started when first asked. */
  readonly planner: Planner
  /** Reads boards that are only looked at. */
  readonly boards: BoardReader
  /** The practice card that is played, with a worker of its own. */
  readonly practice: PracticeDesk
  /** The demo cases and boards that come with the app. */
  readonly shelf: Shelf
  /** One's own cases, kept. */
  readonly caseShelf: CaseShelf
  /** Photos and long reports. */
  readonly files: FileStore
  /** How reports speak of boards, for the next card. */
  readonly shopWords: ShopWords
  /** The shop's name, tax and words for quotes and invoices. */
  readonly shopDetails: ShopDetailsStore
  /** What lies on the shelf by name, kept beside it. */
  readonly ledger: Ledger
  /** A newer Liftmap that waits. */
  readonly version: NewVersion
  /** Of the card as it came. */
  readonly tallyOfCase: ReturnType<typeof createTallyOfCase>
  /** Of the runs after the work. */
  readonly retestOfCase: ReturnType<typeof createTallyOfCase>
  /** The runs that work went on after. */
  readonly earlierOfCase: ReturnType<typeof createEarlierRuns>
  /** The runs after the work beside the first. */
  readonly proofOfCase: ReturnType<typeof createProofOfCase>
  /** A number that grows: for the ids of marks made here. */
  nextNumber(): number
}

export interface DeskParts {
  readonly startWorker: () => WorkerLike
  readonly shelf: Shelf
  /** Left out, cases last as long as the page. */
  readonly caseShelf?: CaseShelf
  /** Left out, files last as long as the page. */
  readonly files?: FileStore
  /** Left out, no copies are offered. */
  readonly folders?: FolderKeeper | undefined
  /** Left out, words of reports last as long as the page. */
  readonly shopWords?: ShopWords
  /** Left out, they last as long as the page. */
  readonly shopDetails?: ShopDetailsStore
  /** Left out, it lasts as long as the page. */
  readonly ledger?: Ledger
  /** Left out, there is never a newer one. */
  readonly version?: NewVersion
}

export function createDesk({
  startWorker,
  shelf,
  caseShelf = caseShelfInMemory(),
  files = fileStoreInMemory(),
  folders,
  shopWords = shopWordsInMemory(),
  shopDetails = shopDetailsIn(),
  ledger = ledgerIn(),
  version = onlyThisVersion(),
}: DeskParts): Desk {
  let number = 0
  return {
    cases: createCaseStore(),
    readings: createReadingStore(),
    results: createResultStore(),
    plan: createPlanStore(),
    nextChecks: createCheckStore(),
    screen: createScreenStore(),
    photos: createPhotoStore(),
    saving: createSavingStore(),
    copies: createCopyStore(),
    folders,
    reasoner: createSteadyClient(startWorker),
    reader: createSteadyClient(startWorker),
    planner: createPlanner(startWorker),
    boards: createBoardReader(startWorker),
    practice: createPracticeDesk(startWorker),
    shelf,
    caseShelf,
    files,
    shopWords,
    shopDetails,
    ledger,
    version,
    tallyOfCase: createTallyOfCase('first'),
    retestOfCase: createTallyOfCase('retest'),
    earlierOfCase: createEarlierRuns(),
    proofOfCase: createProofOfCase(),
    nextNumber: () => ++number,
  }
}

export function closeDesk(desk: Desk): void {
  desk.reasoner.close()
  desk.reader.close()
  desk.planner.close()
  desk.boards.end()
  desk.practice.endWorker()
  desk.caseShelf.close()
}
