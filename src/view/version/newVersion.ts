/**
 * The application as the browser keeps it for times without a network, and a newer one that waits: it begins when the user
 * says so, with no other tab open, so that no case goes on in another program than the one it was opened in.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'

export interface VersionState {
  /** `others-open`: it was asked to begin, and another tab still runs the present one. */
  readonly stage: 'current' | 'ready' | 'others-open' | 'starting'
}

export interface NewVersion {
  readonly store: StoreApi<VersionState>
  /** Begins the one that waits, by loading the page anew; what is unsaved has to be kept before. */
  readonly start: () => Promise<void>
  /** Nothing more is said of it until the page is opened again. */
  readonly later: () => void
}

const createVersionStore = (): StoreApi<VersionState> => createStore<VersionState>(() => ({ stage: 'current' }))

/** Where no version is kept: while it is developed, in tests, in browsers without service workers. */
export const onlyThisVersion = (): NewVersion => ({
  store: createVersionStore(),
  start: () => Promise.resolve(),
  later: () => undefined,
})

/** @param kept the page's service workers; undefined where the browser has none, or offers none to this page */
export function watchForNewVersion(kept: ServiceWorkerContainer | undefined): NewVersion {
  if (kept === undefined) return onlyThisVersion()
  const store = createVersionStore()
  let registration: ServiceWorkerRegistration | undefined
  const ready = (): void => store.setState({ stage: 'ready' })
  holdTab()
  // after the first picture: keeping the application must not delay it
  whenAtRest(() => {
    kept.register('./sw.js', { updateViaCache: 'none' }).then(
      (registered) => {
        registration = registered
        watch(registered, ready)
      },
      () => undefined, // works all the same, with a network
    )
  })
  return {
    store,
    start: async () => {
      const waiting = registration?.waiting ?? undefined
      if (await othersAreOpen()) return store.setState({ stage: 'others-open' })
      store.setState({ stage: 'starting' })
      // it need not wait where the page was loaded past it, by force
      if (waiting === undefined) location.reload()
      else begin(waiting, ready)
    },
    later: () => store.setState({ stage: 'current' }),
  }
}

const LOOK_AGAIN_MS = 3_600_000

function watch(registration: ServiceWorkerRegistration, ready: () => void): void {
  if (registration.waiting !== null && registration.active !== null) ready()
  registration.addEventListener('updatefound', () => {
    const { installing } = registration
    installing?.addEventListener('statechange', () => {
      if (installing.state === 'installed' && registration.active !== null) ready()
    })
  })
  const look = (): void => void registration.update().catch(() => undefined)
  setInterval(look, LOOK_AGAIN_MS)
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') look()
  })
}

/** The page is loaded anew once the one that waited has taken over; a still newer one may have taken its place. */
function begin(waiting: ServiceWorker, ready: () => void): void {
  waiting.addEventListener('statechange', () => {
    if (waiting.state === 'activated') location.reload()
    if (waiting.state === 'redundant') ready()
  })
  waiting.postMessage({ type: 'SKIP_WAITING' })
}

const TAB = 'liftmap tab'

/** Held for as long as the page is there, so that the tabs can be counted. */
function holdTab(): void {
  void tabLocks()
    ?.request(TAB, { mode: 'shared' }, () => new Promise<void>(() => undefined))
    .catch(() => undefined)
}

async function othersAreOpen(): Promise<boolean> {
  const { held = [] } = (await tabLocks()?.query()) ?? {}
  return held.filter(({ name }) => name === TAB).length > 1
}

const tabLocks = (): LockManager | undefined => ('locks' in navigator ? navigator.locks : undefined)

const AT_REST_MS = 3000

/** Some seconds after the page was loaded: what is still being worked out for its first picture goes first. */
function whenAtRest(then: () => void): void {
  const later = (): void => void setTimeout(then, AT_REST_MS)
  if (document.readyState === 'complete') later()
  else window.addEventListener('load', later, { once: true })
}
