/** Where a page opens over the window; what it opens in is loaded with the first of them. */
import { later, OnceOpen } from '../controls/later.tsx'
import { useScreen } from '../stores/hooks.ts'

const PageWindow = later(async () => (await import('./PageWindow.tsx')).PageWindow)

export function PageHost() {
  const open = useScreen((screen) => screen.page !== undefined)
  return (
    <OnceOpen open={open}>
      <PageWindow />
    </OnceOpen>
  )
}
