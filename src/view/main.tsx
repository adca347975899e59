/** Starts the page: first the language, then all that speaks. */
import '../workers/no-code-at-run-time.ts'
import { speakAsWished } from './speech/speech.ts'
import { pageStorage } from './stores/pageStorage.ts'

// Not awaited here: the page imports what stands beside this file, and either would wait for the other.
void speakAsWished(pageStorage(), navigator.languages).then(() => import('./page.tsx'))
