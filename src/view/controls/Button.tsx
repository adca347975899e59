/** Buttons: one that does something, and one that looks like a link in running text. */
import type { ComponentProps } from 'react'
import styles from './controls.module.css'

interface ButtonProps extends ComponentProps<'button'> {
  readonly tone?: 'plain' | 'strong' | 'quiet'
  readonly size?: 'text' | 'icon'
}

export function Button({ tone = 'plain', size = 'text', className, ...rest }: ButtonProps) {
  return (
    <button
      type="button"
      data-tone={tone}
      data-size={size}
      className={className === undefined ? styles.button : `${styles.button} ${className}`}
      {...rest}
    />
  )
}

export function LinkButton(props: ComponentProps<'button'>) {
  return <button type="button" className={styles.link} {...props} />
}
