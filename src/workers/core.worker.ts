/** The worker: the cores behind the contract, off the screen's thread. */
import './no-code-at-run-time.ts'
import { createHandlers } from './handlers.ts'
import { serve } from './serve.ts'

serve(self, createHandlers())
