/**
 * The worker: the cores behind the contract, off the screen's thread. The first message says in which language they speak;
 * they are loaded then, for what they hold as constants is said when they are loaded. What comes meanwhile waits.
 */
import './no-code-at-run-time.ts'
import { speak } from '../base/index.ts'
import { speechMessageSchema } from './envelope.ts'

const waiting: unknown[] = []

self.addEventListener('message', function first({ data }: MessageEvent): void {
  const heard = speechMessageSchema.safeParse(data)
  if (!heard.success) {
    waiting.push(data)
    return
  }
  speak(heard.data.language, heard.data.catalogue, heard.data.manner)
  void import('./core.worker.answers.ts').then(({ answer }) => {
    self.removeEventListener('message', first)
    answer(self)
    for (const message of waiting) self.dispatchEvent(new MessageEvent('message', { data: message }))
  })
})
