/** The worker: the cores behind the contract, off the screen's thread. */
import './no-code-at-run-time.ts'
import { createHandlers } from './handlers.ts'
import { serve } from './serve.ts'

/** One more of the same, from within this one. */
const startBeside = (): Worker => new Worker(self.location.href, { type: 'module', name: 'liftmap-cores-beside' })
serve(self, createHandlers(typeof Worker === 'undefined' ? undefined : startBeside))
