/** All that speaks: loaded once the language is chosen. */
import { createRoot } from 'react-dom/client'
import { startCoreWorker } from '../workers/start.ts'
import { App } from './App.tsx'
import { installTokens } from './look/index.ts'
import { folderKeeper } from './shelf/folderKeeper.ts'
import { openShelf } from './shelf/openShelf.ts'
import { createDesk } from './stores/desk.ts'
import { ledgerIn } from './stores/ledger.ts'
import { builtInShelf } from './stores/shelf.ts'
import { shopDetailsIn } from './stores/shopDetails.ts'
import { pageStorage } from './stores/pageStorage.ts'
import { shopWordsIn } from './stores/shopWords.ts'
import { watchForNewVersion } from './version/newVersion.ts'
import './base.css'

installTokens(document)
const root = document.getElementById('root')
if (root !== null) {
  createRoot(root).render(
    <App
      desk={createDesk({
        startWorker: startCoreWorker,
        shelf: builtInShelf(),
        ...openShelf(),
        folders: folderKeeper(window),
        shopWords: shopWordsIn(pageStorage()),
        shopDetails: shopDetailsIn(pageStorage()),
        ledger: ledgerIn(pageStorage()),
        ...(import.meta.env.PROD ? { version: watchForNewVersion(navigator.serviceWorker) } : {}),
      })}
    />,
  )
}
