### Was in der Schweiz und in Liechtenstein anders ist; alles Übrige steht in de.ftl. Ein ß wird beim Lesen zu ss.

## Zahlen wie in der Schweiz (Unicode CLDR, de-CH)

decimal-mark = .
