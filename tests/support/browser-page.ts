/** Before every file of browser tests: the page as one that was just opened, for files share it (see `vite.config.ts`). */
import { page } from 'vitest/browser'
import { vi } from 'vitest'

vi.restoreAllMocks()
localStorage.clear()
sessionStorage.clear()
document.body.replaceChildren()
delete document.documentElement.dataset['theme']
window.scrollTo(0, 0)
await page.viewport(1440, 900)
