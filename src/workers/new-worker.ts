/** Where the worker's script stands; under test another stands in its place. */
export const newCoreWorker = (): Worker =>
  new Worker(new URL('./core.worker.ts', import.meta.url), { type: 'module', name: 'liftmap-cores' })
