/** What each page is called and made of. A new one is a name in `names.ts`, an entry here and one in the header's menu. */
import { say } from '../../base/index.ts'
import type { ComponentType } from 'react'
import { later } from '../controls/later.tsx'
import type { PageName } from '../stores/pageNames.ts'

export interface Page {
  readonly title: string
  readonly about: string
  readonly Content: ComponentType
}

export const pages: Readonly<Record<PageName, Page>> = {
  parts: {
    title: say('Parts'),
    about: say('what this card needs, what the shop has, and what is on order'),
    Content: later(async () => (await import('../stock/StockPage.tsx')).StockPage),
  },
  'own-record': {
    title: say('The shop’s own record'),
    about: say('what closed cards taught, and how right Liftmap was'),
    Content: later(async () => (await import('../shop-record/ShopRecordPage.tsx')).ShopRecordPage),
  },
  practice: {
    title: say('Practice'),
    about: say('a made-up card with a known truth: nothing of it enters a case or the shop’s record'),
    Content: later(async () => (await import('../practice/PracticePage.tsx')).PracticePage),
  },
  speech: {
    title: say('Language and numbers'),
    about: say('how sentences, numbers, days and amounts are written'),
    Content: later(async () => (await import('../speech/SpeechPage.tsx')).SpeechPage),
  },
  help: {
    title: say('Help'),
    about: say('what each station is for, and how its figures are worked out'),
    Content: later(async () => (await import('../help/HelpPage.tsx')).HelpPage),
  },
}
