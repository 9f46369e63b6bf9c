### Jedes Wort der Seiten und Werkstattblätter auf Deutsch. Was Autoren schreiben, steht nicht hier.
###
### Ein Wort für eine Sache, auf jeder Seite dasselbe:
###
###   torque            Anzugsdrehmoment, in engen Spalten Drehmoment
###   bench sheet       Werkstattblatt                    hold point        Haltepunkt
###   sign off          Freigabe                     open item         offener Punkt
###   thread locker     Schraubensicherung           low, medium, high niedrigfest, mittelfest, hochfest
###   sealant           Dichtmasse                   retaining comp.   Fügeklebstoff
###   anti-seize        Montagepaste                 bead              Dichtraupe
###   preload           Vorspannkraft, am Lager Lagervorspannung
###   proof load        Prüfkraft (ISO 898-1)        nut factor        Drehmomentbeiwert K
###   backlash          Zahnflankenspiel             shaft seal        Wellendichtring
###   tab washer        Sicherungsblech              lock washer       Federring
###   lock wire         Sicherungsdraht              cotter pin        Splint
###   circlip           Sicherungsring               shim              Passscheibe
###   torque wrench     Drehmomentschlüssel          adapter           Einsteckwerkzeug
###   holding tool      Gegenhalter                  gauge             Messmittel
###   spec              Sollwert                     limit             Grenzwert
###   variant           Ausführung                   maker             Hersteller
###   publisher         Herausgeber                  source            Quelle
###   build record      Arbeitsnachweis              bulletin          Änderungsmitteilung
###   recording         Aufnahme                     fingerprint       Fingerabdruck
###   proof copy        Probeabzug                   waiver            begründete Ausnahme
###   step              Arbeitsschritt, kurz Schritt
###
### Signalwörter: GEFAHR, WARNUNG, VORSICHT, HINWEIS, wie deutsche Warnschilder nach ISO 3864-2 sie führen (aus dem
### Gedächtnis). Anweisungen stehen im Infinitiv: »Blatt drucken«.

## Zahlen und Tage, wie die Sprache sie schreibt

decimal-mark = ,
date-day = { $day }.{ $month }.{ $year }

## Auf jeder Seite

caution = Die Werte hier stammen vom oben genannten Herausgeber. Sie können für Ihre Maschine falsch sein. Maßgebend sind die Wartungsunterlagen des Herstellers, die örtlichen Vorschriften und eine Fachkraft. Dieses Handbuch prüft Werte auf Plausibilität und Widersprüche, nie auf Richtigkeit.
caution-title = Bevor Sie sich darauf verlassen
proof-mark = PROBEABZUG, NICHT VERWENDEN
proof-label = Art des Abzugs
proof-findings = Hier gefundene Fehler
proof-counts = { $errors ->
        [one] 1 Fehler
       *[other] { $errors } Fehler
    }, { $warnings ->
        [one] 1 Warnung
       *[other] { $warnings } Warnungen
    } im ganzen Handbuch
proof-general = Fehler im Handbuch als Ganzem
desk-label = Probeabzug auf diesem Rechner
desk-counts = { $errors ->
        [one] 1 Fehler
       *[other] { $errors } Fehler
    }, { $warnings ->
        [one] 1 Warnung
       *[other] { $warnings } Warnungen
    } im Handbuch, wie es zuletzt gelesen wurde.
desk-all = Alle Befunde mit ihren Zeilen
desk-list = Alle Befunde
desk-none = Nichts gefunden.
desk-kept = Was zuletzt gespeichert wurde, war nicht vollständig lesbar. Diese Seite zeigt den Stand davor.
desk-more = Und { $count } weitere; die Liste zeigt alle.
desk-ended = Der Probeabzug ist beendet oder nicht erreichbar: Diese Seite folgt nicht mehr dem, was gespeichert wird.
desk-absent = Diese Seite gibt es nicht
desk-absent-text = Das Handbuch hat zurzeit keine Seite dieses Namens. Sobald es sie gibt, erscheint sie hier von selbst.
fix = Stattdessen:
skip = Zur Arbeit
description-manual = { $title }, herausgegeben von { $publisher }.
description-procedure = { $title }, { $machine }: { $count ->
        [one] 1 Arbeitsschritt
       *[other] { $count } Arbeitsschritte
    } mit jedem Wert, seiner Quelle und einem Werkstattblatt zum Drucken.
scroll-table = Tabelle, seitlich verschiebbar
nav-home = Alle Maschinen
nav-label = Handbuch
footer-label = Handbuch und Tabellen
revision = Revision { $revision }

## Schriftfeld (Datenfelder nach ISO 7200)

block-owner = Herausgeber
block-machine = Maschine
block-id = Dokument-Nr.
block-revision = Revision
block-date = Ausgabedatum
block-language = Sprache
block-sheet = Blatt
block-variant = Ausführung
block-serial = Serien-Nr.
block-by = Bearbeitet von
block-begun = Begonnen
block-finished = Beendet
id-manual = handbuch
kind-manual = Handbuch
kind-machine = Maschine
kind-procedure = Arbeitsanweisung
kind-sheet = Werkstattblatt
kind-table = Tabelle
kind-build = Arbeitsnachweis
kind-card = Wandtafel
kind-book = Buch
kind-board = Lochbild, 1 : 1
sheet-of = { $number } von { $count }

## Erste Seite

home-about = So wird das Handbuch benutzt
home-about-text = Erst die Maschine wählen, dann die Arbeitsanweisung. Jede Anweisung sagt, was sie voraussetzt, nennt jeden Wert dort, wo die Arbeit ihn braucht, und gibt seine Quelle an. Das Werkstattblatt der eigenen Ausführung drucken und bei der Arbeit abhaken.
home-machines = Maschinen
home-procedures = { $count ->
        [one] 1 Arbeitsanweisung
       *[other] { $count } Arbeitsanweisungen
    }
home-tables = Tabellen
home-publisher = Wer für die Werte einsteht
home-publisher-text = { $publisher } gibt dieses Handbuch heraus und steht für seine Werte ein.
home-maker = Hersteller
home-kind = Art

## Maschine

order-title = Reihenfolge der Arbeiten
order-label = Reihenfolge der Arbeiten an der Maschine
order-before = Davor
order-after = Danach
machine-needs = Setzt voraus
machine-nothing = nichts
machine-inherits = Findet offen vor
machine-leaves = Lässt offen
machine-time = Zeit
machine-sheets = Werkstattblätter
machine-papers = Zum Drucken
machine-mass = Masse
machine-variants = Ausführungen
machine-variants-text = Zuerst feststellen, welche davon vorliegt, dann erst Werte ablesen.
machine-not-made = Nicht gebaut: { $variant }
machine-values = Alle Werte
machine-history = Verlauf der Änderungen
axis = Worin sie sich unterscheidet
axis-value = Wert
axis-meaning = Bedeutet

## Arbeitsanweisung

before-title = Vor dem Beginn
before-needs = Vorher abschließen
before-inherited = Offen vorgefunden
before-new = Neu, bereitlegen
before-inspected = Wiederverwendbar nach Prüfung
before-parts = Weitere Teile
before-materials = Betriebs- und Hilfsstoffe
before-wrenches = Drehmomentschlüssel
tolerance-none = Drehmoment ohne Toleranz: so einstellen; ein Schlüssel darf um { $most } abweichen, bis { $full } Endwert um { $small } (nach ISO 6789)
before-tools = Werkzeuge
before-protection = Schutzausrüstung
before-waits = Jetzt beginnen
before-signers = Unterschrift
before-terms = Begriffe
before-time = Zeit
before-sheets = Werkstattblatt zum Drucken
step-time = Zeit
step-moment = Aufnahme
step-corrected = nennt { $said }, das ist falsch
step-corrected-but = nennt { $said }, das gilt nur für { $variant }
leaves-title = Was offen bleibt
sources-title = Woher die Werte stammen
changes-title = Was sich geändert hat
change-was = war { $was }
notes-title = Anmerkungen
recording-title = Aufnahme
recording = Aufnahme der Arbeit
recording-chapters = Kapitel der Aufnahme
recording-list = Für die Beschreibung der Aufnahme: wo jeder Schritt beginnt.
recording-file = Dasselbe für ein Abspielprogramm (WebVTT)
recording-said = Die Aufnahme nennt { $said } für { $of }. Hier ist es berichtigt.
recording-said-listed = Die Aufnahme nennt { $said } für { $of }. Dieses Handbuch hat { $listed }.
note-back = zurück zum Text
open-left = Zustand: { $left }
open-because = Grund: { $because }
open-finished = Abschließen in
open-finished-here = Wird hier abgeschlossen, in
open-until = Bis dahin
open-nowhere = Nirgends steht, wo es abgeschlossen wird.
picture-missing = Bild fehlt:
picture-by = Bild: { $by }.
picture-licence = Lizenz: { $licence }.
balloon-item = Pos.
balloon-thing = Benennung
balloon-size = Größe
balloon-caption = Positionen im Bild
balloon-label = Position { $item }: { $name }
balloon-on-picture = Position { $item }: im Bild zeigen
only = nur { $variant }
step-of = Schritt { $number } von »{ $procedure }«
in-step = Schritt { $number }
steps = { $count ->
        [one] Schritt
       *[other] Schritte
    }
sign-hold = Haltepunkt
sign-off = Freigabe
stop-here = Möglichkeit zur Unterbrechung
time-minutes = { $minutes } min
time-hours = { $hours } h
time-both = { $hours } h { $minutes } min
time-and-wait = { $work } Arbeit, { $wait } Wartezeit
time-span = { $least } bis { $most }
signal-danger = GEFAHR
signal-warning = WARNUNG
signal-caution = VORSICHT
signal-notice = HINWEIS

## Werte

count = { $count } ×
pieces = { $count } Stück
stage = Stufe { $number }:
by-hand = handfest
class = Klasse { $class }
left-hand = Linksgewinde
long = { $length } lang
order = Stellen { $order }
order-worked-out = Stellen { $order }, nach Lage
order-loosen = in dieser Reihenfolge lösen: { $order }
loosen-sheet = Folge { $order }, wie auf der Seite
hold-with = gegenhalten mit { $tool }
adapter = mit Einsteckwerkzeug { $size }: Einstellwert berechnen
adapter-reckoned = mit Einsteckwerkzeug { $size }
set-on-wrench = einstellen
unsourced = ohne Quelle
waived = begründete Ausnahme: »{ $found }« { $because } ({ $by }, bis { $until })
two-signatures = 2 Unterschriften
locker-strength = { $name } ({ $strength })
locker-later = ohne Sicherung ansetzen: { $locker } kommt später
calibrated-until = kalibriert bis { $date }
working-time = innerhalb von { $time } anziehen
working-time-join = innerhalb von { $time } fügen
treat-limit = zulässig: { $limit }
depth = Tiefe
spec = Sollwert
limit = Grenzwert
accept = mit der neuen Scheibe
accept-less = Messwert minus Scheibe
accept-more = Scheibe minus Messwert
accept-both = Messwert und Scheibe zusammen
accept-target = zulässig
on-the-dial = an der Messuhr
readings = { $count } Messungen
cord = Schnur auf Radius { $radius }: Reibmoment { $torque }
otherwise = wenn nicht: { $otherwise }
otherwise-shim = wenn keine Scheibe passt: { $otherwise }
heat-from = von { $from }
soak-in = in { $medium }
soak-covered = ganz bedeckt
bead-diameter = Raupe Ø
bead-path = über { $path }
bead-gap = füllt Spalte bis { $gap }
packs = { $count } × { $pack }
mix-ratio = gemischt { $ratio }
mix-oil = mit { $oil } Öl darin
arc-on = { $arc } Bogen auf Ø { $diameter }
marks-meet = { " " }trifft{ " " }
marks-apart = { " " }steht neben{ " " }
marks-off = { $first } { $sense } von { $second }
viewed-from = Blick von: { $from }
shim-formula = neue Passscheibe = { $formula }
shim-series = von { $range } in Stufen von { $step }
shim-worked = Rechenbeispiel: Messwert { $reading } ergibt { $gives }
stack-ends = { $begin } zuerst, { $end } zuletzt
interference = Übermaß { $size }
lip = Lippe gefettet mit { $material }
vent = Entlüftung öffnet bei { $depth }: frei halten
over = wird geführt über { $over }
over-with-sleeve = wird geführt über { $over }: { $sleeve } benutzen
part-number = Nr. { $number }
spare = und { $count } als Reserve
new = { $count } neu
temporary = kommt wieder heraus
thrown-away = nicht wieder verwenden
reuse-never = jedes Mal neu
reuse-inspect = nur wieder, wenn: { $condition }
reuse-looked-at = nur nach Sichtprüfung wieder
reuse-yes = wiederverwendbar
faces-toward = { $feature } zu: { $toward }
faces-either = Einbaulage beliebig
source-says = { $source } gibt { $value } an
source-decided = entschieden für { $source }: { $because }
source-page = { $title }, Seite { $page }
forbid = { $doing } ({ $thing })
forbid-all = { $doing }, gleich welcher Art

## Zeichnungen

drawing-item = { $name }: { $faces }
drawing-toward = zu: { $toward }
drawing-shaft = { $name } im Schnitt
drawing-shaft-text = Obere Hälfte des Schnitts längs der Welle, von links nach rechts: { $sits }.
drawing-orientation = { $name }: Einbaulage
drawing-orientation-text = Obere Hälfte des Schnitts durch { $name }: { $faces }.
drawing-pack = { $name }: Reihenfolge der Lamellen
drawing-pack-text = { $count } Lamellen aufeinander, gezählt ab der zuerst eingelegten, die unten gezeichnet ist: { $order }.
drawing-pack-first = zuerst: { $name }
drawing-pack-last = zuletzt: { $name }
drawing-diameter = Ø { $diameter }
drawing-arc = { $arc } Bogen
drawing-not-to-scale = Längen nicht maßstäblich.
drawing-order = { $name }: Anziehreihenfolge
drawing-order-circle = { $count } Stellen gleichmäßig auf einem Kreis, im Uhrzeigersinn von oben gezählt wie gezeichnet.
drawing-order-rows = { $count } Stellen in Reihen, von links nach rechts gezählt, Reihe für Reihe von oben.
drawing-order-places = { $count } Stellen, wie sie liegen.
drawing-order-turn = Der Reihe nach anziehen: { $order }.
drawing-loosen = { $name }: Lösereihenfolge
drawing-loosen-turn = Der Reihe nach lösen: { $order }.
drawing-order-stages = Alle einmal in jeder Stufe: { $stages }.
drawing-order-stage = { $stage } { $value }
drawing-left = { $name }: Linksgewinde
drawing-left-tighten = Linksgewinde: gegen den Uhrzeigersinn zieht an
drawing-left-loosen = Linksgewinde: im Uhrzeigersinn löst
drawing-left-text = { $name }, wie die Hand es sieht, mit einem Pfeil darum. { $words }.
drawing-order-legend = Im Kreis: Folge, ab dicker 1. Daneben: Stelle.
drawing-order-legend-turns = Im Kreis: Folge, ab dicker 1.
drawing-adapter = { $name }: Schlüssel mit Einsteckwerkzeug
drawing-adapter-text = Der Schlüssel misst { $length } von Griffmitte bis Vierkant (L), das Einsteckwerkzeug { $adapter } vom Vierkant bis zur Schraube (E), unter { $angle } zur Schlüsselachse.
drawing-adapter-set = { $set } einstellen für { $torque }
drawing-adapter-formula = Einstellwert = Drehmoment × L ÷ (L + E × cos { $angle })
drawing-stages = { $name }: Stufen
drawing-stages-text = Drehmoment über dem Drehwinkel, Stufe für Stufe: { $stages }.
drawing-stages-torque = bis { $value }
drawing-stages-angle = { $value } weiter
drawing-stages-up = Drehmoment
drawing-stages-across = Drehwinkel
drawing-stages-scale = Drehmomente maßstäblich.
drawing-stages-scale-angle = Drehmomente maßstäblich, Winkel nicht. Wie viel Drehmoment der Winkel hinzufügt, ist nicht angegeben.
drawing-fit = { $bearing }: Passung und Temperatur
drawing-fit-text = Bei { $before }: { $bearing } hat Übermaß { $interference } auf Ø { $diameter }. { $part } bei { $after }, das andere noch bei { $before }: Ein Spalt von mindestens { $gap } ist offen.
drawing-fit-gap = Spalt mindestens { $gap }
drawing-fit-enlarged = Übermaß und Spalt sind stark vergrößert gezeichnet.
drawing-align = { $name }: Marken
drawing-align-text = { $moving } und { $fixed } stehen { $offset } auseinander.
drawing-align-side-untold = Nach welcher Seite, sagt kein Wert: siehe Quelle.

## Was hinter einem Anzugsdrehmoment steht

behind-title = Was hinter den Werten steht
behind-link = Vorspannkraft, Anteil der Prüfkraft und Schlüssel zu jedem Anzugsdrehmoment; was auf jeder Quelle beruht
behind-page = Was hinter »{ $title }« steht
kind-behind = Nachweis der Werte
account-title = Was hinter jedem Anzugsdrehmoment steht
account-text = Vorspannkraft und Anteil der Prüfkraft sind berechnet nach F = T/(K·d), mit üblichen Drehmomentbeiwerten. Sie zeigen einen unplausiblen Wert, nie einen richtigen.
account-link = was dahintersteht
account-torque = Anzugsdrehmoment
account-source = Quelle
account-threads = Gewinde
account-threads-assumed = nicht angegeben; gerechnet mit: { $condition }
account-preload = Vorspannkraft
account-preload-value = etwa { $mid } kN ({ $low }–{ $high } kN bei Drehmomentbeiwert { $rough }–{ $slippery })
account-share = Anteil der Prüfkraft
account-share-value = etwa { $mid } % ({ $low }–{ $high } %) der Prüfkraft, { $class }
account-class-assumed = keine Festigkeitsklasse angegeben; gerechnet mit { $class }
account-plausible = plausibel für { $role } (üblich { $low }–{ $high } %)
account-below = niedrig für { $role } (üblich { $low }–{ $high } %)
account-above = hoch für { $role } (üblich { $low }–{ $high } %)
account-over-proof = über der Prüfkraft; üblich für { $role }: { $low }–{ $high } %
account-not-screened = nicht beurteilt: { $role }
account-wrench = Schlüssel
account-set = { $value } einstellen; Abweichung bis ± { $deviation } % möglich
account-set-corrected = mit Einsteckwerkzeug { $value } einstellen; Abweichung bis ± { $deviation } % möglich
account-used = Verwendet in
account-waived = Begründete Ausnahme
role-drive = Schraube, die Antriebskraft überträgt
role-clamp = Klemmverbindung
role-cover = Deckelschraube
role-shaft-nut = Wellenmutter
role-plug = Verschlussschraube
role-angle = Fügemoment vor einem Drehwinkel
role-soft = weiche Verbindung
role-adjuster = Einstellschraube

## Wörter des Formats

left-hand-tight = handfest
left-dry-fitted = trocken angesetzt
left-trial-torque = mit Probemoment angezogen
left-provisional = vorläufig eingestellt
left-absent = nicht eingebaut
left-plugged = verschlossen
left-unsealed = ohne Dichtung
left-away = außer Haus
threads-dry = Gewinde rein, trocken
threads-oiled = Gewinde geölt
threads-locker = Schraubensicherung am Gewinde
threads-anti-seize = Montagepaste am Gewinde
threads-moly = Molybdänpaste am Gewinde
threads-as-supplied = Gewinde im Lieferzustand
strength-low = niedrigfest
strength-medium = mittelfest
strength-high = hochfest
strength-wicking = kapillar
lock-staked = einmal verstemmen
lock-tab-washer = Sicherungsblech umbiegen
lock-lock-washer = durch Federring
lock-lock-wire = mit Draht sichern
lock-cotter = Splint
lock-prevailing = selbstsichernd
lock-none = keine Sicherung
running-included = Wert enthält das Laufmoment der Mutter
running-added = Laufmoment der Mutter messen und hinzurechnen
running-not-stated = ob der Wert das Laufmoment der Mutter enthält, ist nicht angegeben
medium-water = Wasser
medium-air = Luft
medium-fuel = Kraftstoff
medium-exhaust = Abgas
feature-spring = Federseite
feature-back = Rückseite
feature-numbers = Beschriftung
feature-sharp-edge = scharfe Kante
feature-hollow = hohle Seite
feature-lip = Lippe
feature-shield = Deckscheibe
feature-chamfer = Fase
over-splines = die Verzahnung
over-keyway = die Passfedernut
over-thread = das Gewinde
formula-reading = Messwert
formula-old = alte Passscheibe
formula-target = Zielwert
turns-more = Umdrehungen
turns-one = Umdrehung
sense-clockwise = im Uhrzeigersinn
sense-anticlockwise = gegen den Uhrzeigersinn
expect-hold = halten für
expect-drift = Abweichung
expect-drop = Abfall
expect-pressure = Druck
expect-load = Last
field-torque = Drehmoment
field-count = Anzahl
field-spec = Sollwert
field-limit = Grenzwert
field-amount = Menge
field-time = Zeit
field-to = Temperatur
field-locker = Schraubensicherung
field-kind = Art
field-reuse = Wiederverwendung
field-got = Herkunft
field-when = Bedingung
field-from = Herkunft oder Beginn
field-threads = Gewindezustand
field-holds = hält oder enthält
field-otherwise = sonst
field-thread = Gewinde
field-role = Aufgabe
field-class = Klasse
field-faces = Einbaulage
field-into = Muttergewinde in
field-drive = Antrieb
field-of = gehört zu
field-with = Messmittel
field-length = Länge
field-clamped = Klemmlänge
field-material = Werkstoff
field-side = Seite
field-hole = Gewindetiefe
field-in = sitzt in
field-tool = Werkzeug
field-layout = Anordnung
field-for = nur für
field-expect = erwartet
field-size = Größe
field-order = Reihenfolge
field-viewed_from = Blick von
field-mass = Masse
field-sense = Drehsinn
field-base = Basis
field-hold_with = gegenhalten mit
field-critical = kritisch
field-type = Bauform
field-depth = Tiefe
field-lip = Lippe
field-over = geführt über
field-sleeve = Hülse
field-is = Formel
field-pack = Gebinde
field-temporary = vorübergehend
field-under = unter
field-check_with = geprüft mit
field-chooses = bestimmt
field-step = Stufung
field-target = Zielwert
field-accept = zulässig
field-worked = Rechenbeispiel
field-needs = braucht
field-working = Verarbeitungszeit
field-cure = Aushärtung
field-service = Beständigkeit
field-cool = Abkühlen
field-old = bisher
field-lock = Sicherung
field-fit = Passung
field-covers = verdeckt
field-spare = Reserve
field-number = Nummer
field-strength = Festigkeit
field-fixture = Handfestigkeit
field-angle_total = Drehwinkel gesamt
field-thickness = Dicke
field-diameter = Durchmesser
field-grade = Sorte
field-vent = Entlüftung
field-live = drehend
field-between = zwischen
field-path = Weg
field-cord = Schnur
field-marks = Marken
field-release = Lösetemperatur
field-head = Kopfhöhe
field-room = Freiraum
field-gap = Spalt
field-bore = Bohrung
field-at = Messstelle
field-offset = Versatz
field-arc = Bogen
field-packs = Gebinde vorhanden
field-begin = zuerst
field-end = zuletzt
field-covered = bedeckt
field-new = neu
field-washer = Scheibe
field-adapter = Einsteckwerkzeug
field-running = Laufmoment
field-because = Grund
field-instead_of = anstelle von
field-pair = Paar
field-left = Zustand
field-finish_in = abschließen in
field-forbids = verbietet
field-send = versandt
field-receive = zurück
field-on_return = bei Rückkehr
field-ratio = Mischung
field-oil = Öl
field-range = Messbereich
field-scale = Skala
field-resolution = Ablesung
field-against = schützt vor
source-kind-maker = Unterlage des Herstellers
source-kind-kit = Beiblatt eines Satzes
source-kind-vendor = Datenblatt eines Lieferanten
source-kind-measured = gemessen
source-kind-size-table = Tabelle nach Größe
source-kind-practice = übliche Praxis
source-kind-heard = gehört
from-order = einzeln bestellt
from-stock = war vorhanden
got-bought = gekauft
got-given = geschenkt
got-lent = geliehen
against-heat = Hitze
against-spring = Federn
against-pressure = Druck
against-chips = Späne
against-solvent = Lösemittel
against-fuel = Kraftstoff
against-load = Lasten
against-rotation = Drehung
against-electric = Strom
tool-kind-torque-wrench = Drehmomentschlüssel
tool-kind-angle-gauge = Drehwinkelmesser
tool-kind-holding-tool = Gegenhalter
tool-kind-gauge = Messmittel
tool-kind-press-tool = Einpresswerkzeug
tool-kind-sleeve = Montagehülse
tool-kind-heater = Heizgerät
tool-kind-thermometer = Thermometer
tool-kind-lifting = Hebezeug
tool-kind-container = Behälter
tool-kind-protection = Schutzausrüstung
tool-kind-other = sonstiges
material-kind-thread-locker = Schraubensicherung
material-kind-retaining-compound = Fügeklebstoff
material-kind-sealant = Dichtmasse
material-kind-oil = Öl
material-kind-grease = Fett
material-kind-anti-seize = Montagepaste
material-kind-solvent = Lösemittel
material-kind-coolant = Kühlmittel
material-kind-fuel = Kraftstoff
material-kind-adhesive = Klebstoff
material-kind-other = sonstiges
seal-kind-rotary-lip = Wellendichtring
seal-kind-o-ring = O-Ring
part-kind-cover = Deckel
part-kind-gasket = Flachdichtung
part-kind-o-ring = O-Ring
part-kind-circlip = Sicherungsring
part-kind-key = Passfeder
part-kind-pin = Stift
part-kind-clip = Klammer
part-kind-washer = Scheibe
part-kind-sealing-washer = Dichtscheibe
part-kind-lock-washer = Federring
part-kind-dished-washer = Tellerfeder
part-kind-shim = Passscheibe
part-kind-spacer = Distanzstück
part-kind-gear = Zahnrad
part-kind-plate = Platte
part-kind-spring = Feder
part-kind-housing = Gehäuse
part-kind-shaft = Welle
part-kind-other = sonstiges
test-kind-function = Funktion
test-kind-leak = Dichtheit
test-kind-pressure = Druck
test-kind-run = Probelauf
test-kind-load = unter Last
metal-steel = Stahl
metal-cast-iron = Gusseisen
metal-aluminium = Aluminium
metal-magnesium = Magnesium
metal-brass = Messing
flag-true = ja
flag-false = nein
doing-align = kein Einstellen
doing-apply = kein Auftragen
doing-begin = kein Beginnen
doing-clean = kein Reinigen
doing-cool = kein Abkühlen
doing-dry-fit = kein Anprobieren
doing-fill = kein Befüllen
doing-fit = kein Einbauen
doing-heat = kein Erwärmen
doing-hold = kein Haltepunkt
doing-lock = kein Sichern
doing-loosen = kein Lösen
doing-mark = kein Markieren
doing-measure = kein Messen
doing-receive = keine Rücknahme
doing-remove = kein Ausbauen
doing-send = kein Versenden
doing-sign = keine Freigabe
doing-start = kein Ansetzen von Hand
doing-stop = keine Unterbrechung
doing-test = keine Prüfung
doing-tool = kein Werkzeug
doing-torque = kein Anziehen
doing-turn = kein Drehen
doing-wait = kein Warten

## Suche

search-open = Suche
search-field = Im Handbuch suchen
search-hint = Ein Teil, eine Größe, ein Wert, ein Werkzeug, ein Schritt: Schwungrad 105, m8 Sicherung
search-close = Schließen
search-found = Gefunden
search-nothing = Nichts gefunden. Die Tabellen enthalten jeden Wert.
search-first = Die ersten davon werden gezeigt.
search-meant = »{ $wrong }« heißt hier { $right }.
found-machine = Maschine
found-procedure = Arbeitsanweisung
found-step = Schritt
found-fastener = Schraube, Mutter
found-seal = Dichtung
found-bearing = Lager
found-part = Teil
found-locker = Sicherung oder Dichtmasse
found-material = Betriebs- oder Hilfsstoff
found-tool = Werkzeug
found-measure = Messung
found-shim = Passscheibe
found-fill = Füllung
found-heat = Erwärmung
found-wait = Wartezeit
found-bead = Dichtraupe
found-align = Einstellung
found-turn = Drehung
found-test = Prüfung
found-stack = Paket
found-kit = Satz
found-open = Offener Punkt
found-away = Teil außer Haus
found-source = Quelle
found-person = Person
found-term = Begriff

## Tabellen

tables-torque = Drehmomente
tables-lockers = Schraubensicherungen und Dichtmassen
tables-seals = Dichtungen
tables-tools = Werkzeuge
tables-parts = Teile
tables-to-have = Bereitlegen und bestellen
tables-open = Offene Punkte
tables-people = Personen
tables-terms = Begriffe
about-torque = Jede Schraube und Mutter: was sie ist, wie fest, auf welchem Gewinde, nach wessen Angabe.
about-lockers = Nach Festigkeit, nie nach Farbe: wohin jede gehört und wie lange Zeit bleibt.
about-seals = Größe, welche Seite wohin zeigt, wie tief.
about-tools = Was die Arbeit verlangt, mit Messbereichen.
about-parts = Was eingebaut wird, wie viele, woher, und was weggeworfen wird.
about-to-have = Alles, was vor der Arbeit bereitliegen muss: neue Teile und woher sie kommen, Stoffe zusammengezählt, Schlüssel und Einstellwerte, Wartezeiten.
about-people = Wer was unterschreibt, wer es geschrieben oder gemessen hat, wer es ein zweites Mal gelesen hat.
about-terms = Ein Wort für eine Sache: was es bedeutet, welche Wörter dafür nicht benutzt werden, wo es steht.
about-open = Was eine Arbeitsanweisung einer anderen hinterlässt und wo es abgeschlossen wird.
table-of = { $table }, { $machine }
tables-none = Nichts dergleichen.
table-torque = Schrauben, Muttern und Drehmomente
table-lockers = Schraubensicherungen und Dichtmassen
table-materials = Weitere Betriebs- und Hilfsstoffe
table-seals = Dichtungen
table-parts = Teile und Lager
table-kits = Sätze
table-tools = Werkzeuge
table-measures = Messungen
table-shims = Passscheiben
table-fills = Füllungen
table-heats = Erwärmen und Kühlen
table-waits = Wartezeiten
table-beads = Dichtraupen
table-aligns = Einstellungen
table-turns = Drehungen
table-tests = Prüfungen
table-stacks = Pakete
table-sources = Quellen
table-changes = Änderungen
table-open = Offene Punkte
table-to-order = Zu bestellen: kein Satz und kein Vorrat bringt es
table-new = Neu, bereitlegen
table-again = Wieder verwendet
table-amounts = Betriebs- und Hilfsstoffe
table-sets = Schlüssel und Einstellwerte
table-have-drives = Schraubenschlüssel, Nüsse und Stiftschlüssel
table-have-tools = Werkzeuge und Schutzausrüstung
table-have-waits = Wartezeiten
table-people = Personen
table-terms = Begriffe
table-bulletins = Seither geänderte Werte
table-work = Geleistete Arbeit
table-readings = Messwerte
table-as-read = Gemessen an den bearbeiteten Maschinen
table-fitted-shims = Eingebaute Passscheiben
table-signatures = Unterschriften
table-stops = Beantwortete STOPP-Zeilen
table-deviations = Abweichend ausgeführt
table-left-open = Offen gelassen
col-fastener = Schraube, Mutter
col-torque = Drehmoment
col-size = Größe
col-threads = Gewinde, Sicherung
col-threads-wrench = Gewinde, Sicherung, Schlüssel
col-wrench = Schlüssel
col-reuse = Wieder verwenden
col-source = Quelle
col-used = Verwendet in
col-material = Stoff
col-kind = Art
col-strength = Festigkeit
col-grade = Sorte
col-base = Basis
col-for-threads = Für Gewinde
col-times = Zeiten
col-temperatures = Temperaturen
col-working = Verarbeitungszeit
col-fixture = Handfest nach
col-cure = Ausgehärtet nach
col-service = Beständig
col-release = Löst sich bei
col-pack = Gebinde
col-seal = Dichtung
col-in = Sitzt in
col-faces = Welche Seite wohin
col-depth = Tiefe
col-lip = Lippe
col-sleeve = Hülse
col-number = Nummer
col-part = Teil
col-count = Anzahl
col-from = Nummer, woher
col-kit = Satz
col-holds = Enthält
col-tool = Werkzeug
col-range = Messbereich
col-scale = Skala
col-step = Schritt
col-scale-step = Teilung
col-drive = Vierkant
col-length = Länge
col-resolution = Ablesbar auf
col-against = Schützt vor
col-measure = Messung
col-shim = Passscheibe
col-fill = Füllung
col-heat = Erwärmung
col-wait = Wartezeit
col-bead = Dichtraupe
col-align = Einstellung
col-turn = Drehung
col-test = Prüfung
col-stack = Paket
col-value = Wert
col-details = Zu beachten
col-edition = Ausgabe
col-page = Seite
col-date = Datum
col-by = Von
col-read-by = Zweite Lesung
col-rests = Was darauf beruht
col-changed = Was
col-document = Wo
col-revision = Revision
col-was = War
col-became = Wurde
col-because = Warum
col-person = Person
col-wrote = Geschrieben oder gemessen
col-read = Ein zweites Mal gelesen
col-signs = Unterschreibt
col-term = Begriff
col-means = Bedeutet
col-not = Nicht
col-stands = Steht in
col-open = Offener Punkt
col-left = Zustand
col-forbids = Bis dahin
col-opened = Offen gelassen von
col-finished = Abgeschlossen in
col-how-many = Wie viele
col-spare = Reserve
col-comes = Kommt von
col-amount = Verbrauch gesamt
col-packs = Gebinde
col-in-hand = Vorrat
col-sets = Einstellwert
have-packs = { $count } Gebinde
have-set = { $fastener }: { $set }
have-set-for = { $fastener }: { $set } für { $torque }
have-set-adapter = { $fastener }: { $set } mit Einsteckwerkzeug, für { $torque }
have-stage = { $fastener }, Stufe { $stage }
have-begin = kann jetzt beginnen
comes-order = einzeln gekauft
comes-stock = aus dem Vorrat der Werkstatt
comes-unstated = nicht angegeben
col-recorded = Laut Nachweis
col-now = Jetzt
col-answer = Beantwortet von
col-revision-now = Revision jetzt
col-fingerprint = Fingerabdruck
col-sheet = Sein Werkstattblatt
col-begun = Begonnen
col-done = Beendet
col-reading-number = Nr.
col-reading = Messwert
col-spec = Sollwert jetzt
col-limit = Grenzwert jetzt
col-verdict = Beurteilung
col-machines = Maschinen
col-least = Kleinster
col-median = Median
col-most = Größter
col-asked = Verlangt
col-fitted = Eingebaut
col-gives = Ergibt
col-when = Wann
col-looked-for = Nachgesehen
col-before = Vor
col-seen-by = Gesehen von
col-otherwise = Abweichend
col-signed-by = Unterschrieben von
col-as = Als
col-what = Was getan wurde
col-thing = Woran
col-finish = Abzuschließen in

## Werkstattblatt

sheet-title = { $title }: Werkstattblatt, { $machine }
sheet-all = alle Ausführungen auf einem Blatt
sheet-grid = Kästchen zu Zeile { $number }
sheet-back = Am Bildschirm:
sheet-print = Diese Seite drucken. Sie passt auf A4 und Letter.
sheet-begin = Vor dem Beginn
sheet-after = Abgeschlossen:
sheet-tick = erledigt
sheet-set-by = Schlüssel eingestellt von
sheet-shim = bereitgelegt:
sheet-signature = Unterschrift
sheet-date = Datum
sheet-tool = WERKZEUG
sheet-hold = HALTEPUNKT
sheet-sign = FREIGABE
sheet-skips = Nummern wie auf der Seite; was hier fehlt, ist ein Werkzeug, eine Unterschrift oder Arbeit einer anderen Ausführung.
sheet-reset = UMSTELLEN
sheet-reset-line = { $wrench }: { $from } → { $to }
sheet-stop = PAUSE
sheet-close = STOPP
sheet-close-cover = Vor dem Verschließen: { $name }
sheet-close-act = Davor: { $words }
sheet-close-look = Nachsehen:
sheet-close-lines = { $name } ({ $count ->
        [one] Zeile
       *[other] Zeilen
    } { $lines })
sheet-close-where = { $name } ({ $place })
sheet-close-doubt = Fehlt etwas oder besteht Zweifel? Nicht weitermachen.
sheet-close-seen = gesehen von
sheet-leaves = Bleibt offen
sheet-leaves-text = Anhänger ausschneiden und ans Teil binden.
sheet-tag-date = Offen seit
sheet-finish = Abschließen in
stretch-plan = Stellen zum Unterbrechen: { $places }.
stretch-place = nach Schritt { $number } ({ $time })
stretch-end = dann { $time } bis zum Ende
stretch-first = Erste Stelle zum Unterbrechen: nach Schritt { $number }, { $time } Arbeit.
stretch-whole = Dazwischen keine Stelle zum Unterbrechen: { $time } Arbeit.
stretch-next = Nächste Stelle zum Unterbrechen: nach Schritt { $number }, { $time } Arbeit.
stretch-last = Von hier bis zum Ende: { $time } Arbeit.
stretch-wait = Dazu { $wait } Wartezeit.
stretch-wait-alone = { $wait } Wartezeit.
sheet-stopped = Hier unterbrochen
sheet-stopped-step = nach Zeile
sheet-stopped-time = Tag und Uhrzeit
sheet-stopped-state = Zustand des Offenen
sheet-stopped-by = von
book-of = { $title }: Buch
book-about = Das ganze Handbuch als ein Dokument zum Drucken.
book-contents = Inhalt
book-contents-text = Die Nummer steht am Kopf jeder Seite ihres Kapitels. Die Seitenzahl steht am Fuß.
book-values-number = W
book-tables-number = T
board-of = Lochbild: { $name }
board-check = Mit 100 % drucken. Beide Balken müssen 50 mm messen; sonst stimmt hier nichts.
board-use = Auf Pappe legen und jedes Loch ausstanzen. Jede Schraube wartet an ihrer Stelle. Die große Zahl sagt, wann sie beim Anziehen an der Reihe ist.
board-bar = 50 mm
board-turns = der Reihe nach angezogen, 1 bis { $count }
board-turns-worked-out = der Reihe nach angezogen, 1 bis { $count }, nach Lage
edge-top = Oben: { $words }.
edge-bottom = Unten: { $words }.
edge-left = Links: { $words }.
edge-right = Rechts: { $words }.
board-described = { $name }: { $count } Löcher an ihren wahren Stellen, jedes mit seinem Platz in der Anziehreihenfolge, und zwei Balken von 50 mm
board-push = Das Lochbild ist so groß wie sein Deckel: wo es breiter als der Bildschirm ist, zur Seite schieben.
card-title = Drehmomenttafel
card-of = Drehmomenttafel, { $machine }
card-shared = An mehreren Stellen
card-new = jedes Mal neu
card-temporary = nur zur Probe
sheet-picture = Bild auf der Seite: { $caption }
sheet-notes = Anmerkungen
# Wörter, die Handgriffe verbinden und selbst nichts sagen: Ein Satz aus Handgriffen und diesen wird nicht zweimal gedruckt.
sheet-connectors = und dann oder jetzt nun danach sowie anschließend
have-new = Neu, bereitlegen
have-inspected = Wiederverwendbar nach Prüfung
have-parts = Teile
have-materials = Stoffe
have-wrenches = Drehmomentschlüssel
have-drives = Schlüssel: { $sizes }
have-tools = Werkzeuge
have-protection = Schutzausrüstung
have-waits = Jetzt beginnen

# Ein Papier, neben das Blatt von heute gehalten. @was, @now, @paper und @page bleiben, wie sie sind: Die Seite füllt sie.
code-label = Quadratischer Code dieses Blattes: Er führt hierher und sagt, ob ein Papier noch gilt. Fingerabdruck { $fingerprint }.
code-values = Fingerabdruck
paper-title = Zum Papier in Ihrer Hand
paper-current = Das Papier in Ihrer Hand ist aktuell.
paper-same-values = Das Papier in Ihrer Hand gilt noch: Es ist von Revision { $was }, jetzt { $now }, und kein Wert auf diesem Blatt hat sich geändert.
paper-older = Dieses Papier ist veraltet: Revision { $was }, jetzt { $now }. Nicht verwenden.
paper-changed = Dieses Papier ist veraltet: Ein Wert darauf hat sich seit dem Druck geändert. Das Blatt ist weiterhin von Revision { $now }. Nicht verwenden.
paper-later = Das Papier ist von Revision { $was }, diese Seite von Revision { $now }: Diese Seite ist die ältere. Keines von beiden verwenden, bevor feststeht, welches gilt.
paper-unreadable = Der Code dieses Papiers ist nicht lesbar. Den aufgedruckten Fingerabdruck mit dem unten stehenden vergleichen.
paper-prints = Fingerabdruck auf dem Papier: { $paper }. Auf dieser Seite: { $page }.
paper-changes = Was sich auf diesem Blatt seither geändert hat:
paper-shared = Werte, die dieses Blatt mit anderen teilt und die sich irgendwann geändert haben:
change-told = { $of } war { $was } ({ $because })
change-short = { $of } war { $was }
change-not-there = nicht vorhanden

# Änderungsmitteilungen: was sich geändert hat, und das Blatt zum Nachsehen.
kind-bulletins = Änderungsmitteilung
bulletins-title = Änderungsmitteilungen
bulletins-of = Änderungsmitteilungen zu { $machine }
bulletins-about = Was sich an den Werten dieser Maschine geändert hat, und welche nachgewiesenen Maschinen nach einem älteren Wert bearbeitet wurden. Ein Blatt ist veraltet, wenn sein Fingerabdruck nicht der heute gedruckte ist.
bulletins-order = Die neuesten zuerst, nach dem Tag der Änderung. Darunter stehen Änderungen früherer Revisionen, deren Tag das Handbuch nicht bewahrt.
bulletins-none = Für diese Maschine ist keine Änderung verzeichnet.
feed-none = Für diese Revision ist keine Änderung eines Wertes verzeichnet.
recheck-title = Nachsehen: { $build }
recheck-about = Diese Werte haben sich seit der Arbeit an dieser Maschine geändert. Jeden nachsehen, den Befund aufschreiben, unterschreiben. Ob die Maschine wieder geöffnet wird, entscheiden die Wartungsunterlagen ihres Herstellers, die örtlichen Vorschriften und eine Fachkraft.
recheck-none = Keine nachgewiesene Maschine wurde nach einem Wert bearbeitet, der sich seither geändert hat.
recheck-found = Befund
recheck-done = Erledigt
recheck-name = Name
recheck-sign = Unterschrift
recheck-day = Datum
recheck-critical = kritisch

# Durchsicht der Werte einer Maschine, ihre Ausführungen nebeneinander, der Quelltext einer Arbeitsanweisung.
kind-review = Durchsicht
kind-matrix = Ausführungen
kind-source = Quelltext
review-title = Durchsicht der Werte
review-of = Durchsicht der Werte von { $machine }
review-about = Alles mit Werten: was jetzt dort steht, seit welcher Revision, wo ein Änderungseintrag es sagt, aus welcher Quelle, wer diese Quelle ein zweites Mal gelesen hat, und womit Benchleaf es verglichen hat. Ein Wert, der besteht, ist plausibel, widerspruchsfrei und belegt; richtig ist er damit noch nicht.
review-honesty = Wie es um jede Arbeitsanweisung steht
col-procedure = Arbeitsanweisung
col-with-values = Dinge mit Werten
col-sourced = Mit Quelle
col-measured = Gemessen
col-twice = Von zwei Personen gelesen
col-waived = Begründete Ausnahme
review-second = Zweite Lesung kritischer Werte
review-filters = Nur zeigen
review-all = Alle zeigen
review-filter = { $what }: { $count }
review-since = seit Revision { $revision }
review-critical = kritisch
review-nobody = noch niemand
review-mark-unsourced = Ohne Quelle
review-mark-heard = Nur gehört
review-mark-size-table = Aus einer Tabelle nach Größe
review-mark-practice = Übliche Praxis
review-mark-measured = Gemessen
review-mark-waived = Durch begründete Ausnahme verantwortet
review-mark-once = Quelle von einer Person gelesen
review-mark-critical-once = Kritisch und nicht zweimal gelesen
review-checked-proof = Anzugsdrehmoment gegen die Prüfkraft von Gewinde und Festigkeitsklasse
review-checked-units = beide Einheiten gegeneinander
review-checked-stages = Summe der Stufen
review-checked-worked = Formel gegen ihr Rechenbeispiel
review-checked-formula = Formel und was sie nennt
review-checked-limit = Grenzwert gegen Sollwert
review-checked-form = Form, Einheit und Art
honesty = { $all ->
    [one] Von 1 Ding mit Werten
   *[other] Von { $all } Dingen mit Werten
}: { $sourced ->
    [0] keines mit Quelle
    [1] 1 mit Quelle
   *[other] { $sourced } mit Quelle
}, { $measured ->
    [0] keines gemessen
    [1] 1 gemessen
   *[other] { $measured } gemessen
}, { $twice ->
    [0] keines aus einer von zwei Personen gelesenen Quelle
    [1] 1 aus einer von zwei Personen gelesenen Quelle
   *[other] { $twice } aus einer von zwei Personen gelesenen Quelle
}, { $waived ->
    [0] keines durch begründete Ausnahme verantwortet
    [1] 1 durch begründete Ausnahme verantwortet
   *[other] { $waived } durch begründete Ausnahmen verantwortet
}.
machine-honesty = Die Werte
matrix-title = Ausführungen nebeneinander
matrix-of = Ausführungen von { $machine } nebeneinander
matrix-about = Jeder Wert, der sich zwischen Ausführungen unterscheidet, für jede gebaute Kombination. Eine Lücke ist eine Kombination, für die kein Wert geschrieben steht.
matrix-by = Nach { $axes }
matrix-there = vorhanden
matrix-is-there = ja
matrix-absent = nicht vorhanden
matrix-gap = LÜCKE
matrix-needless = nicht nötig
matrix-left-out = Nach { $axes } gibt es zu viele Kombinationen, um sie nebeneinanderzustellen; jede Arbeitsanweisung zeigt ihre eigenen.
source-link = Der Quelltext, wie geschrieben
source-sheet-of = Quelltext von { $title }
source-about = Die Datei, aus der diese Arbeitsanweisung entsteht, wie ihr Autor sie geschrieben hat. Die Zeilen sind nummeriert; ein Probeabzug zeigt zu jeder, was gefunden wurde.
source-cut = { $count ->
    [one] 1 weitere Zeile steht in der Datei.
   *[other] { $count } weitere Zeilen stehen in der Datei.
}
table-critical = Kritische Dinge und wer ihre Werte gelesen hat
col-entry = Ding
col-values = Werte
col-checked = Verglichen mit

# Ein Arbeitsnachweis.
machine-builds = Bearbeitete Maschinen
build-of = { $machine } Nr. { $serial }
build-named = { $machine }, Nachweis { $name }
build-about = Dies sagt der Nachweis. Er belegt, was aufgeschrieben wurde, nicht, was getan wurde. Messwerte werden mit Soll- und Grenzwert verglichen, wie sie jetzt sind.
build-people = Bearbeitet von
build-saved = Zuletzt gespeichert
build-bulletins = Was eine Mitteilung seither geändert hat
build-tell = An dieser Maschine wurde nach Werten gearbeitet, die sich seither geändert haben. Wer sie hat, muss es erfahren. Ob sie wieder geöffnet wird, entscheiden die Wartungsunterlagen des Herstellers und eine Fachkraft.
build-no-bulletins = Kein Änderungseintrag betrifft einen Wert dieses Nachweises.
build-record = Der Nachweis
build-no-work = Noch ist keine Arbeit verzeichnet.
build-critical = noch niemand: kritisch
build-unanswered = noch niemand
build-not-there = nicht in diesem Handbuch
build-stale = nicht das aktuelle
build-current = aktuell
build-unmarked = nicht angegeben
build-in-hand = bereitgelegt
build-nobody = nicht angegeben
build-untold = nicht angegeben
build-count = { $count ->
    [one] { $count } Wert hat sich seither geändert
   *[other] { $count } Werte haben sich seither geändert
}
verdict-good = innerhalb des Sollwerts
verdict-within-limit = innerhalb des Grenzwerts
verdict-worn = außerhalb des Sollwerts, innerhalb des Grenzwerts
verdict-out = außerhalb des Grenzwerts
verdict-none = nichts zum Vergleichen
verdict-unclear = nicht zu beurteilen
## Werkstattblatt auf dem Telefon: von Skripten gesagt. Was sie einsetzen, heißt wie in den Klammern

bench-hold = Zum Abhaken gedrückt halten: { $name }
bench-ticked = Erledigt { $time } · { $by }
bench-untick = Abgehakt. Zum Zurücknehmen gedrückt halten: { $name }
bench-changed = Wert geändert: war { $was }, jetzt { $now }. Erneut abhaken.
bench-grid-first = { $count } Kästchen dieser Zeile sind noch leer. Erst diese abhaken.
bench-box = Zeile { $number }, { $value }, Nr. { $place }
bench-before-tick = Zum Abhaken gedrückt halten: { $name }
bench-early = Zu früh: noch { $left }, bis { $time }. Warten, oder in diesem Schritt eine Abweichung mit Grund eintragen, dann abhaken.
bench-hold-longer = Nichts geändert: eine halbe Sekunde gedrückt halten.
bench-stop-first = Noch nicht: STOPP vor dieser Zeile ist nicht beantwortet ({ $name }). Nachsehen und dort abhaken; oder in dem Schritt eine Abweichung mit Grund eintragen.
bench-hold-first = Noch nicht: Am Haltepunkt in Schritt { $step } ({ $name }) fehlt die Unterschrift: { $by }. Dort unterschreiben lassen, dann abhaken; oder in seinem Schritt oder in diesem eine Abweichung mit Grund eintragen.
bench-back = Zurück
bench-next = Weiter
bench-step = Schritt { $number }: { $name }
bench-start = Vor dem Beginn
bench-end = Bleibt offen
bench-one = Ein Schritt je Bildschirm
bench-list = Alle Schritte als Liste
bench-build = Diese Maschine
bench-build-title = Diese Maschine
bench-build-about = Haken, Messwerte und Unterschriften bleiben auf diesem Gerät, für jede Seriennummer getrennt. Zum Aufbewahren an anderer Stelle exportieren.
bench-status = Serien-Nr. { $serial } · { $by } · { $count } von { $all } Zeilen abgehakt
bench-no-build = Seriennummer und Namen eingeben
bench-serial = Seriennummer der Maschine
bench-who = Ihr Name
bench-keep = Speichern
bench-close = Schließen
bench-cancel = Abbrechen
bench-need-build = Nichts wurde abgehakt. Erst Seriennummer und Namen eingeben.
bench-need-who = Beides eingeben: Seriennummer und Namen.
bench-settings = Auf diesem Gerät
bench-tap = Mit einfachem Tippen abhaken, ohne zu halten
bench-print-ticks = Auch Haken und Messwerte drucken; ohne dies hat das Papier leere Kästchen
bench-awake = Bildschirm anlassen
bench-awake-on = Der Bildschirm bleibt an, solange diese Seite offen ist.
bench-awake-off = Der Bildschirm bleibt zurzeit nicht an.
bench-awake-none = Dieser Browser kann den Bildschirm nicht anlassen. In den Einstellungen des Telefons eine längere Zeit wählen.
bench-units = Zuerst gezeigte Einheit
bench-units-printed = Wie gedruckt
bench-units-metric = Metrisch
bench-units-customary = Zoll und Pfund
bench-export = Nachweis exportieren
bench-export-about = Eine kleine Datei mit allem zu dieser Maschine.
bench-import = Nachweis einlesen
bench-imported = Eingelesen: { $count } neue Einträge zu Serien-Nr. { $serial }.
bench-imported-other = Eingelesen und behalten, hier aber nicht gezeigt: Er gehört zu Maschine { $machine }, Serien-Nr. { $serial }. Ein Blatt dieser Maschine öffnen.
bench-import-large = Nichts eingelesen: Die Datei ist größer als jeder Arbeitsnachweis.
bench-import-json = Nichts eingelesen: Die Datei ist kein Arbeitsnachweis oder beschädigt.
bench-import-form = Nichts eingelesen: Der Nachweis ist nicht in Ordnung bei { $place }.
bench-import-newer = Nichts eingelesen: Der Nachweis hat eine Form, die diese Seite nicht kennt ({ $value }).
bench-import-manual = Er entstand mit dem Handbuch { $title }.
bench-import-left = { $count } Felder, die diese Seite nicht kennt, wurden weggelassen.
bench-import-full = Nichts eingelesen: Dieses Gerät hat keinen Platz oder erlaubt das Behalten nicht.
bench-revision-other = Diese Arbeit wurde mit Revision { $was } begonnen; dieses Blatt ist Revision { $now }. Zeilen mit geändertem Wert werden erneut abgefragt.
bench-fingerprint-other = Seit Beginn dieser Arbeit haben sich Werte auf diesem Blatt geändert. Zeilen mit geändertem Wert werden erneut abgefragt.
bench-serial-other = Serien-Nr. { $serial } ist { $variant } ({ $limit }), dieses Blatt gilt für { $now }. Nicht danach arbeiten, bevor das Typschild noch einmal angesehen ist.
bench-variant-other = Der Nachweis zu Serien-Nr. { $serial } gilt für { $was }, dieses Blatt für { $now }. Nicht nach diesem Blatt arbeiten, bevor das geklärt ist.
bench-variant-here = Diese Maschine ist { $now }: Nachweis ändern
bench-variant-open = Blatt für { $was } öffnen
bench-aside = { $count } Einträge dieser Arbeit gehören zu Zeilen, die nicht auf diesem Blatt stehen. Sie bleiben erhalten.
bench-aside-store = Was dieses Gerät zu dieser Maschine behalten hatte, war nicht lesbar. Es wurde beiseitegelegt, nicht gelöscht.
bench-denied = Dieses Gerät behält nichts: Der Speicher ist voll oder nicht erlaubt. Den Nachweis exportieren, bevor diese Seite geschlossen wird.
bench-finish = Diese Arbeit abschließen
bench-finished = Beendet { $time }
bench-unfinish = Wieder öffnen
bench-unfinished = Noch nicht erledigte Zeilen: { $count }.
bench-reading = Messwert { $number }
bench-reading-one = Messwert
bench-reading-unit = Einheit der Messwerte
bench-reading-none = kein Messwert eingetragen
bench-reading-missing = nicht eingetragen: { $name }
bench-reading-bad = nicht lesbar: { $name }
bench-reading-outside = außerhalb: { $name }
bench-reading-worn = außerhalb des Sollwerts, innerhalb des Grenzwerts: { $name }
bench-reading-off = neben dem angegebenen Wert: { $name }
bench-reading-first = Noch nicht, das liegt außerhalb: { $name }. Beheben und noch einmal messen, oder in diesem Schritt eine Abweichung mit Grund eintragen, dann abhaken.
bench-inside = innerhalb des Sollwerts: { $spec }
bench-inside-limit = innerhalb des Grenzwerts: { $limit }
bench-outside-spec = außerhalb des Sollwerts, innerhalb des Grenzwerts: { $limit }
bench-outside-spec-only = außerhalb des Sollwerts: { $spec }
bench-outside-limit = außerhalb des Grenzwerts: { $limit }
bench-outside-otherwise = Sonst: { $otherwise }
bench-no-limit = gespeichert; das Blatt nennt keinen Sollwert
bench-for-shim = gespeichert zum Wählen der Scheibe
bench-no-band = neben dem genannten Wert, { $spec }, für den keine Toleranz angegeben ist
bench-not-number = Das ist keine Zahl. Zum Beispiel 0,71 oder 0.71 schreiben.
bench-unit-unknown = { $unit } ist keine Einheit, die diese Seite kennt.
bench-unit-other = { $unit } passt hier nicht.
bench-thousands = Punkt und Komma zugleich: eine Zahl oder zwei? Nur eines davon schreiben.
bench-read-as = gelesen als { $value }
bench-at-teeth = an den Zähnen { $value }
bench-stop-seen = Nachgesehen, nichts fehlt: gedrückt halten
bench-sign = Zum Unterschreiben gedrückt halten: { $name }
bench-sign-name = Name der unterschreibenden Person
bench-signed = Unterschrieben { $time } · { $by }
bench-sign-twice = { $by } hat hier schon unterschrieben. Zwei Unterschriften sind zwei Personen.
bench-sign-need = Erst den Namen der unterschreibenden Person eintragen.
bench-deviation = Abweichung notieren
bench-deviation-title = Abweichung in Schritt { $step }
bench-deviation-of = Worum es geht
bench-deviation-of-step = Der Schritt als Ganzes
bench-deviation-what = Was anders ausgeführt wurde
bench-deviation-because = Warum
bench-deviation-need = Aufschreiben, was anders ausgeführt wurde und warum.
bench-deviation-told = Abweichung, { $name }: { $value } ({ $by }, { $time })
bench-deviation-remove = Zurücknehmen
bench-shim = Dicke der eingebauten Passscheibe
bench-shim-trial = Dicke der eingelegten Passscheibe
bench-shim-need = Erst die Dicke der Passscheibe messen und eintragen, dann abhaken; oder in diesem Schritt eine Abweichung mit Grund eintragen.
bench-shim-right = Das ist die Passscheibe, die die Messwerte verlangen: { $value } ist berechnet.
bench-shim-gives = { $size } ergibt { $gives }: zulässig; { $value } ist berechnet.
bench-shim-wrong = Nicht die Passscheibe, die die Messwerte verlangen: { $value } ist berechnet. { $best } nehmen, oder in diesem Schritt eine Abweichung mit Grund eintragen.
bench-shim-wrong-none = Nicht zulässig: { $value } ist berechnet, und keine Passscheibe der Reihe passt dazu. Noch einmal messen, oder in diesem Schritt eine Abweichung mit Grund eintragen.
bench-shim-unread = Nicht mit den Messwerten verglichen: { $name } fehlt.
bench-shim-box = { $size } gibt es in der Reihe nicht ({ $spec }). Noch einmal messen, oder in diesem Schritt eine Abweichung mit Grund eintragen.
bench-reckon-shim = Passscheibe berechnen
bench-reckon-adapter = Einstellwert mit Einsteckwerkzeug berechnen
bench-reckon-arc = Bogen und Grad
bench-reckon-formula = { $name }: die Formel
bench-reckon-reading = Messwert
bench-reckon-old = Bei der Messung eingelegte Passscheibe
bench-reckon-target = Zielwert
bench-reckon-wants = { $formula } = { $value }
bench-reckon-take = { $size } nehmen.
bench-reckon-offer = { $size } ergibt { $gives }
bench-reckon-offer-off = { $size } ergibt { $gives }: nicht zulässig
bench-reckon-none = Keine Passscheibe der Reihe ist zulässig. Vorhanden sind { $low } bis { $high }.
bench-reckon-wrench-length = Länge des Schlüssels L (Griffmitte bis Vierkant)
bench-reckon-adapter-length = Länge des Einsteckwerkzeugs E (Vierkant bis Schraube)
bench-reckon-angle = Winkel des Einsteckwerkzeugs (0° gerade, 90° quer)
bench-reckon-torque = Drehmoment an der Schraube
bench-reckon-set = { $value } einstellen: { $formula }
bench-reckon-arc-length = Bogen s
bench-reckon-diameter = Durchmesser D
bench-reckon-degrees = Grad θ
bench-reckon-missing = Fehlendes eintragen: { $name }.
bench-reckon-impossible = Aus diesen Zahlen ergibt sich kein Wert.
bench-reckon-median = Der eingetragene Messwert ist der mittlere der Ihren.
bench-reckon-result = { $formula } = { $value }
bench-reckon-caution = Berechnet, nicht gemessen. Es entscheiden die Wartungsunterlagen des Herstellers.
bench-timer-start = Zeit starten: { $name }, { $value }
bench-timer-within = Frist starten: { $name }, { $value }
bench-timer-running = { $name }: noch { $left }, bis { $time }
bench-timer-over = { $name }: vorbei seit { $time }
bench-timer-late = { $name }: Zeit abgelaufen um { $time }
bench-timer-drop = Diese Zeit verwerfen
bench-timer-soonest = { $value }
bench-clock-back = Die Uhr dieses Geräts ging um { $value } zurück. Laufende Zeiten enden vielleicht später als angezeigt. Auf eine andere Uhr sehen.
bench-clock-forward = Die Uhr dieses Geräts ging um { $value } vor, oder es ruhte, während diese Seite offen war. Auf eine andere Uhr sehen.
bench-clock-doubt = Die Uhr hat sich geändert, während diese Zeit lief: auf eine andere Uhr sehen.
bench-wrenches = Meine Schlüssel
bench-wrenches-about = Auf diesem Gerät gespeichert. Jedes Drehmoment nennt dann den passenden eigenen Schlüssel und den Einstellwert.
bench-wrench-name = Name
bench-wrench-low = Skala von
bench-wrench-high = Skala bis
bench-wrench-unit = Einheit der Skala
bench-wrench-length = Länge in mm, Griffmitte bis Vierkant (für Einsteckwerkzeuge)
bench-wrench-step = Teilung der Skala
bench-wrench-add = Schlüssel hinzufügen
bench-wrench-remove = { $name } entfernen
bench-wrench-bad = Einen Namen angeben und eine Skala, die von einer kleineren zu einer größeren Zahl geht.
bench-wrench-set = Ihr Schlüssel: { $wrench }, { $value } einstellen
bench-wrench-set-adapter = Ihr Schlüssel: { $wrench } mit Einsteckwerkzeug, { $value } einstellen: { $formula }
bench-wrench-length-missing = { $wrench } hat keine Länge: Der Einstellwert mit Einsteckwerkzeug ist nicht zu berechnen.
bench-wrench-none = Keinem Ihrer Schlüssel ist bei { $value } zu trauen. Nicht schätzen: einen passenden ausleihen.
bench-wrench-range = { $wrench }: { $low }–{ $high } { $unit }
bench-notices = Zu beachten
bench-dismiss = Gesehen
bench-seconds = { $count } s
bench-minutes = { $count } min
bench-hours = { $count } h
bench-days = { $count } d

## Kopie des Handbuchs auf einem Gerät: von Skripten gesagt

saved-new = Neue Werte liegen vor.
saved-new-revision = Neue Werte liegen vor: Diese Seite ist jetzt Revision { $now }.
saved-load = Laden
saved-later = Später
saved-older = Diese Seite zeigt noch ältere Werte.
