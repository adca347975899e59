/** Language, numbers, days and currency. What is written is said anew when the page is loaded again. */
import { useState } from 'react'
import { dayStyles, languageNames, languages, numberStyles, say, type SpeechWish } from '../../base/index.ts'
import { Button } from '../controls/Button.tsx'
import { Choice, SelectField, TextField, Tick } from '../controls/fields.tsx'
import panel from '../controls/panel.module.css'
import { useDesk, useShopDetails } from '../stores/hooks.ts'
import { pageStorage } from '../stores/pageStorage.ts'
import styles from './speech.module.css'
import { keepSpeechWish, speechWishIn } from './speech.ts'

const AS_BROWSER = 'as the browser'

const languageOptions = [
  { value: AS_BROWSER, words: say('As the browser') },
  ...languages.map((value) => ({ value, words: languageNames[value] })),
] as const

const styled = <T extends string>(values: readonly T[]) =>
  values.map((value) => ({ value, words: value === 'by language' ? say('As the language has it') : value }))

export function SpeechPage() {
  const desk = useDesk()
  const shop = useShopDetails()
  const [kept] = useState(() => speechWishIn(pageStorage()))
  const [wish, setWish] = useState(kept)
  const [refused, setRefused] = useState(false)
  const changed = JSON.stringify(wish) !== JSON.stringify(kept)
  const change = (over: Partial<SpeechWish>): void => setWish({ ...wish, ...over })
  const use = (): void => {
    if (keepSpeechWish(pageStorage(), wish)) location.reload()
    else setRefused(true)
  }
  return (
    <div className={styles.speech}>
      <Choice
        label={say('Language')}
        value={wish.language ?? AS_BROWSER}
        options={languageOptions}
        onChange={(chosen) => setWish(chosen === AS_BROWSER ? withoutLanguage(wish) : { ...wish, language: chosen })}
      />
      <div className={panel.two}>
        <SelectField
          label={say('Numbers')}
          value={wish.numbers}
          options={styled(numberStyles)}
          onChange={(numbers) => change({ numbers })}
        />
        <SelectField
          label={say('Days')}
          value={wish.days}
          options={styled(dayStyles)}
          onChange={(days) => change({ days })}
        />
      </div>
      <Tick
        label={say('°F and inches beside °C and mm')}
        checked={wish.alsoUs}
        onChange={(alsoUs) => change({ alsoUs })}
      />
      <TextField
        label={say('Currency')}
        hint={say('Of all amounts, unless a case says another.')}
        maxLength={12}
        value={shop.currency}
        onChange={(currency) => desk.shopDetails.setState({ currency })}
      />
      <p className={panel.quiet}>
        {say('Fields take decimal point and comma alike, whatever is chosen here. Fields for days follow the browser.')}
      </p>
      <Button disabled={!changed} onClick={use}>
        {say('Use it and load the page again')}
      </Button>
      {refused && (
        <p role="alert">{say('This browser keeps nothing for this page: language and numbers stay as they are.')}</p>
      )}
    </div>
  )
}

function withoutLanguage(wish: SpeechWish): SpeechWish {
  const { language: _, ...manner } = wish
  return manner
}
