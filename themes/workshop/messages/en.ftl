### Every word of pages and bench sheets. Texts of the manual's author are not here.

## On every page

caution = The values here come from the publisher named above. They may be wrong for your machine. The maker's service data, local codes and a qualified person decide. This manual checks values for plausibility and consistency, never for correctness.
caution-title = Before you rely on this
proof-mark = PROOF, NOT FOR USE
proof-label = Kind of copy
proof-findings = Found wrong here
proof-counts = { $errors ->
        [one] 1 error
       *[other] { $errors } errors
    }, { $warnings ->
        [one] 1 warning
       *[other] { $warnings } warnings
    } in the whole manual
proof-general = Found wrong in the manual as a whole
desk-label = Proof on this machine
desk-counts = { $errors ->
        [one] 1 error
       *[other] { $errors } errors
    }, { $warnings ->
        [one] 1 warning
       *[other] { $warnings } warnings
    } in the manual as last read.
desk-all = All findings with their lines
desk-list = All findings
desk-none = Nothing was found.
desk-kept = The last save could not be read as a whole. This page is the one before it.
desk-more = And { $count } more; the list has them all.
desk-ended = The proof has ended or can't be reached: this page no longer follows what is saved.
desk-absent = No such page
desk-absent-text = The manual has no page of this name now. If it gets one, it shows here by itself.
fix = Instead:
skip = To the work
description-manual = { $title }, published by { $publisher }.
description-procedure = { $title }, { $machine }: { $count ->
        [one] 1 step
       *[other] { $count } steps
    } with every value, its source and a bench sheet to print.
scroll-table = Table; scrolls sideways
nav-home = All machines
nav-label = Manual
footer-label = Manual and tables
revision = revision { $revision }

## Title block (data fields of ISO 7200)

block-owner = Publisher
block-machine = Machine
block-id = Document no.
block-revision = Revision
block-date = Date of issue
block-language = Language
block-sheet = Sheet
block-variant = Variant
block-serial = Serial no.
block-by = Done by
block-begun = Begun
block-finished = Finished
id-manual = manual
kind-manual = Manual
kind-machine = Machine
kind-procedure = Procedure
kind-sheet = Bench sheet
kind-table = Table
kind-build = Build record
kind-card = Card for the wall
kind-book = Book
kind-board = Board, 1 : 1
sheet-of = { $number } of { $count }

## First page

home-about = How to use this manual
home-about-text = Choose your machine, then the procedure. Each procedure says what it needs, gives every value where the work needs it, and names its source. Print the bench sheet for your variant and tick it off as you go.
home-machines = Machines
home-procedures = { $count ->
        [one] 1 procedure
       *[other] { $count } procedures
    }
home-tables = Tables
home-publisher = Who answers for the values
home-publisher-text = { $publisher } publishes this manual and answers for its values.
home-maker = Maker
home-kind = Kind

## Machine

order-title = Build order
order-label = Build order of the machine
order-before = Before
order-after = Next
machine-needs = Needs
machine-nothing = nothing before it
machine-inherits = Finds open
machine-leaves = Leaves open
machine-time = Time
machine-sheets = Bench sheets
machine-papers = To print
machine-mass = Mass
machine-variants = Variants
machine-variants-text = Find out which of each you have before you read a value.
machine-not-made = Not made: { $variant }
machine-values = Every value
machine-history = History of changes
axis = Way it differs
axis-value = Value
axis-meaning = Means

## Procedure

before-title = Before you start
before-needs = Complete first
before-inherited = Found open
before-new = New, in hand
before-inspected = Used again if it passes
before-parts = Other parts
before-materials = Materials
before-wrenches = Wrenches
before-tools = Tools
before-protection = Protection
before-waits = Start now
before-signers = Signs
before-terms = Words
before-time = Time
before-sheets = Bench sheet to print
step-time = Time
step-moment = Recording
leaves-title = What stays open
sources-title = Where the values come from
changes-title = What changed
notes-title = Notes
recording-title = Recording
recording = Recording of the work
recording-chapters = Chapters of the recording
recording-list = For the recording's description: where each step begins.
recording-file = The same for a player (WebVTT)
recording-said = The recording says { $said } for { $of }. It is corrected here.
recording-said-listed = The recording says { $said } for { $of }. This manual has { $listed }.
note-back = back to the text
open-left = left { $left }
open-because = because { $because }
open-finished = Finish it in
open-finished-here = Finished here, in
open-until = Until then
open-nowhere = Nothing says where it is finished.
picture-missing = Picture missing:
picture-by = Drawn or taken by { $by }.
picture-licence = Licence: { $licence }.
balloon-item = Item
balloon-thing = What it is
balloon-size = Size
balloon-caption = Items of the picture
balloon-label = Item { $item }: { $name }
balloon-on-picture = Item { $item }: show it on the picture
only = only { $variant }
step-of = { $procedure }, step { $number }
in-step = step { $number }
steps = { $count ->
        [one] step
       *[other] steps
    }
sign-hold = Hold point
sign-off = Sign off
stop-here = Stopping place
time-minutes = { $minutes } min
time-hours = { $hours } h
time-both = { $hours } h { $minutes } min
signal-danger = DANGER
signal-warning = WARNING
signal-caution = CAUTION
signal-notice = NOTICE

## Values

count = { $count } ×
stage = stage { $number }
by-hand = by hand
class = class { $class }
long = { $length } long
order = order { $order }
order-worked-out = order { $order }, by their places
hold-with = hold with { $tool }
adapter = with an adapter of { $size }: work out the setting
adapter-reckoned = with an adapter of { $size }
set-on-wrench = set
unsourced = unsourced
waived = waived: { $found }. { $because } ({ $by }, until { $until })
two-signatures = two signatures
locker-strength = { $name } ({ $strength } strength)
working-time = tighten within { $time }
treat-limit = must not see more than { $limit }
depth = depth
spec = spec
limit = limit
accept = then reads
on-the-dial = on the dial
readings = { $count } readings
cord = cord on a radius of { $radius }: a drag of { $torque }
otherwise = out of it: { $otherwise }
heat-from = from { $from }
soak-in = in { $medium }
soak-covered = fully covered
bead-diameter = bead Ø
bead-path = along { $path }
bead-gap = fills a gap of up to { $gap }
packs = { $count } × { $pack }
mix-ratio = mixed { $ratio }
mix-oil = with { $oil } of oil in it
arc-on = { $arc } of arc on Ø { $diameter }
marks-meet = { " " }meets{ " " }
marks-off = { $first } { $sense } of { $second }
viewed-from = seen from { $from }
shim-formula = new shim = { $formula }
shim-series = from { $range } in steps of { $step }
shim-worked = worked example: a reading of { $reading } gives { $gives }
stack-ends = { $begin } first, { $end } last
interference = tight by { $size }
lip = lip greased with { $material }
vent = a vent opens at { $depth }: keep it clear
over = passes over { $over }
over-with-sleeve = passes over { $over }: use { $sleeve }
part-number = no. { $number }
spare = and { $count } spare
new = { $count } new
temporary = comes out again
thrown-away = do not use again
reuse-never = new each time
reuse-inspect = again only if: { $condition }
reuse-looked-at = again only after a look at it
reuse-yes = used again
faces-toward = { $feature } to { $toward }
faces-either = either way round
source-page = { $title }, page { $page }
forbid = { $doing } ({ $thing })
forbid-all = { $doing } of any kind

## Drawings

drawing-item = { $name }: { $faces }
drawing-toward = to { $toward }
drawing-shaft = { $name } in section
drawing-shaft-text = Upper half of the section along the shaft, from left to right: { $sits }.
drawing-orientation = { $name }: which way round
drawing-orientation-text = Upper half of the section of { $name }: { $faces }.
drawing-pack = { $name }: plates in their order
drawing-pack-text = { $count } plates on each other, numbered from the first that goes in, drawn at the bottom: { $order }.
drawing-pack-first = first in: { $name }
drawing-pack-last = last in: { $name }
drawing-diameter = Ø { $diameter }
drawing-arc = { $arc } of arc
drawing-not-to-scale = Lengths are not to scale.
drawing-order = { $name }: tightening order
drawing-order-circle = { $count } positions evenly round a circle, numbered clockwise from the top as drawn. Tighten them in turn: { $order }.
drawing-order-rows = { $count } positions in rows, numbered from left to right, row by row from the top. Tighten them in turn: { $order }.
drawing-order-places = { $count } positions as they lie. Tighten them in turn: { $order }.
drawing-order-stages = All of them once in each stage: { $stages }.
drawing-order-stage = { $stage }: { $value }
drawing-order-legend = In the balloon when, beside it which position.
drawing-adapter = { $name }: wrench with adapter
drawing-adapter-text = The wrench is { $length } long from the middle of its grip to its square (L), the adapter { $adapter } from the square to the fastener (E), at { $angle } to the wrench's line.
drawing-adapter-set = set { $set } for { $torque }
drawing-adapter-formula = set = torque × L ÷ (L + E × cos { $angle })
drawing-stages = { $name }: stages
drawing-stages-text = Torque over angle of turn, stage by stage: { $stages }.
drawing-stages-torque = to { $value }
drawing-stages-angle = { $value } further
drawing-stages-up = torque
drawing-stages-across = angle of turn
drawing-stages-scale = Torques are to scale.
drawing-stages-scale-angle = Torques are to scale, angles are not. What torque the angle adds, no value tells.
drawing-fit = { $bearing }: fit and temperature
drawing-fit-text = At { $before }: { $bearing } is tight by { $interference } on Ø { $diameter }. { $part } at { $after }, the other still at { $before }: a gap of at least { $gap } is open.
drawing-fit-gap = gap at least { $gap }
drawing-fit-enlarged = Tightness and gap are drawn much larger than they are.
drawing-align = { $name }: marks
drawing-align-text = { $moving } and { $fixed } are apart by { $offset }.
drawing-align-side-untold = To which side, no value tells: see the source.

## What stands behind a torque

behind-title = What stands behind the values
behind-link = Each torque's preload, share of the proof load and wrench; what rests on each source
behind-page = What stands behind { $title }
kind-behind = Account of the values
account-title = What stands behind each torque
account-text = Preload and share of the proof load are reckoned by F = T/(K·d), with nut factors of common practice. They tell an implausible value, never a correct one.
account-link = what stands behind it
account-torque = Torque
account-source = Source
account-threads = Threads
account-threads-assumed = not stated; reckoned with: { $condition }
account-preload = Preload
account-preload-value = about { $mid } kN ({ $low }–{ $high } kN with a nut factor of { $rough }–{ $slippery })
account-share = Share of proof load
account-share-value = about { $mid } % ({ $low }–{ $high } %) of the proof load, { $class }
account-class-assumed = no class is stated; reckoned with { $class }
account-plausible = plausible for { $role } (usually { $low }–{ $high } %)
account-below = low for { $role } (usually { $low }–{ $high } %)
account-above = high for { $role } (usually { $low }–{ $high } %)
account-over-proof = beyond the proof load; usual for { $role }: { $low }–{ $high } %
account-not-screened = not screened: { $role }
account-wrench = Wrench
account-set = set { $value }; it may be out by ± { $deviation } %
account-set-corrected = set { $value } with the adapter on; it may be out by ± { $deviation } %
account-used = Used in
account-waived = Waived
role-drive = a fastener that carries drive
role-clamp = a clamped joint
role-cover = a cover's fastener
role-shaft-nut = a nut on a shaft
role-plug = a plug
role-angle = the snug stage before an angle
role-soft = a soft joint
role-adjuster = an adjuster

## Words of the format

left-hand-tight = hand-tight
left-dry-fitted = fitted dry
left-trial-torque = at a trial torque
left-provisional = set for now
left-absent = not fitted
left-plugged = plugged
left-unsealed = unsealed
left-away = away at a vendor
threads-dry = threads clean and dry
threads-oiled = threads oiled
threads-locker = locker on the threads
threads-anti-seize = anti-seize on the threads
threads-moly = moly paste on the threads
threads-as-supplied = threads as supplied
strength-low = low
strength-medium = medium
strength-high = high
strength-wicking = wicking
lock-staked = stake it once
lock-tab-washer = bend the tab up
lock-lock-washer = by its lock washer
lock-lock-wire = wire it
lock-cotter = cotter pin
lock-prevailing = by its own grip
lock-none = no lock
running-included = the value includes the torque the nut runs down with
running-added = measure the torque the nut runs down with, and add it
running-not-stated = whether the value includes the torque the nut runs down with is not stated
medium-water = water
medium-air = air
medium-fuel = fuel
medium-exhaust = exhaust
feature-spring = spring side
feature-back = back
feature-numbers = numbers
feature-sharp-edge = sharp edge
feature-hollow = hollow side
feature-lip = lip
feature-shield = shield
feature-chamfer = chamfer
over-splines = the splines
over-keyway = the keyway
over-thread = the thread
formula-reading = reading
formula-old = old shim
formula-target = target
sense-clockwise = clockwise
sense-anticlockwise = anticlockwise
expect-hold = hold for
expect-drift = drift
expect-drop = drop
expect-pressure = pressure
expect-load = load
field-torque = torque
field-count = count
field-spec = good reading
field-limit = limit
field-amount = amount
field-time = time
field-to = temperature
field-locker = locker
source-kind-maker = the maker's document
source-kind-kit = a kit's sheet
source-kind-vendor = a vendor's sheet
source-kind-measured = measured
source-kind-size-table = a table by size
source-kind-practice = common practice
source-kind-heard = heard
from-order = ordered separately
from-stock = was there
against-heat = heat
against-spring = springs
against-pressure = pressure
against-chips = chips
against-solvent = solvent
against-fuel = fuel
against-load = load
against-rotation = rotation
against-electric = electricity
tool-kind-torque-wrench = torque wrench
tool-kind-angle-gauge = angle gauge
tool-kind-holding-tool = holding tool
tool-kind-gauge = gauge
tool-kind-press-tool = press tool
tool-kind-sleeve = sleeve
tool-kind-heater = heater
tool-kind-thermometer = thermometer
tool-kind-lifting = lifting gear
tool-kind-container = container
tool-kind-protection = protection
tool-kind-other = other
material-kind-thread-locker = thread locker
material-kind-retaining-compound = retaining compound
material-kind-sealant = sealant
material-kind-oil = oil
material-kind-grease = grease
material-kind-anti-seize = anti-seize
material-kind-solvent = solvent
material-kind-coolant = coolant
material-kind-fuel = fuel
material-kind-adhesive = adhesive
material-kind-other = other
seal-kind-rotary-lip = rotary lip
seal-kind-o-ring = O-ring
doing-align = no setting
doing-apply = no putting on
doing-begin = no starting
doing-clean = no cleaning
doing-cool = no cooling
doing-dry-fit = no trial fitting
doing-fill = no filling
doing-fit = no fitting
doing-heat = no heating
doing-hold = no hold point
doing-lock = no locking
doing-loosen = no loosening
doing-mark = no marking
doing-measure = no measuring
doing-receive = no taking back
doing-remove = no removing
doing-send = no sending away
doing-sign = no signing off
doing-start = no starting by hand
doing-stop = no stopping
doing-test = no testing
doing-tool = no tool
doing-torque = no tightening
doing-turn = no turning
doing-wait = no waiting

## Search

search-open = Search
search-field = Search the manual
search-hint = A part, a size, a value, a tool, a step: flywheel 105, m8 locker
search-close = Close
search-found = Found
search-nothing = Nothing found. The tables hold every value.
search-first = The first of them are shown.
search-meant = ‘{ $wrong }’ is called { $right } here.
found-machine = Machine
found-procedure = Procedure
found-step = Step
found-fastener = Fastener
found-seal = Seal
found-bearing = Bearing
found-part = Part
found-locker = Locker or sealant
found-material = Material
found-tool = Tool
found-measure = Measurement
found-shim = Shim
found-fill = Fill
found-heat = Heat
found-wait = Wait
found-bead = Bead of sealant
found-align = Alignment
found-turn = Turn
found-test = Test
found-stack = Stack
found-kit = Kit
found-open = Open item
found-away = Part away
found-source = Source
found-person = Person
found-term = Word

## Tables

tables-torque = Torques
tables-lockers = Thread lockers and sealants
tables-seals = Seals
tables-tools = Tools
tables-parts = Parts
tables-to-have = What to have and to order
tables-open = Open items
tables-people = People
tables-terms = Words
about-torque = Every fastener: what it is, how tight, on what threads, by whose word.
about-lockers = By strength, never by colour: where each goes and how long it has.
about-seals = Size, which side looks at what, how deep.
about-tools = What the work asks for, with ranges.
about-parts = What goes in, how many, from where, and what is thrown away.
about-to-have = Everything to have before the work begins: new parts and where they come from, materials summed, wrenches and what to set, waits.
about-people = Who signs what, who wrote or measured it, who read it a second time.
about-terms = One word for one thing: what it means, which words are not used for it, where it stands.
about-open = What one procedure leaves for another, and where it is finished.
table-of = { $table }, { $machine }
tables-none = Nothing of this kind.
table-torque = Fasteners and torques
table-lockers = Lockers and sealants
table-materials = Other materials
table-seals = Seals
table-parts = Parts and bearings
table-kits = Kits
table-tools = Tools
table-measures = Measurements
table-shims = Shims
table-fills = Fills
table-heats = Heats and chills
table-waits = Waits
table-beads = Beads of sealant
table-aligns = Alignments
table-turns = Turns
table-tests = Tests
table-stacks = Stacks
table-sources = Sources
table-changes = Changes
table-open = Open items
table-to-order = To order: no kit and no stock brings it
table-new = New, in hand
table-again = Used again
table-amounts = Materials
table-sets = Wrenches and what to set
table-have-tools = Tools and protection
table-have-waits = Waits
table-people = People
table-terms = Words
table-bulletins = Values that changed since
table-work = Work done
table-readings = Readings
table-signatures = Signatures
table-deviations = Done otherwise
table-left-open = Left open
col-fastener = Fastener
col-torque = Torque
col-size = Size
col-threads = Threads and lock
col-wrench = Wrench
col-reuse = Use again
col-source = Source
col-used = Used in
col-material = Material
col-kind = Kind
col-strength = Strength
col-grade = Grade
col-base = Base
col-for-threads = For threads
col-working = Working time
col-fixture = Holds after
col-cure = Cured after
col-service = Stands
col-release = Lets go at
col-pack = Pack
col-seal = Seal
col-in = Sits in
col-faces = Which side looks where
col-depth = Depth
col-lip = Lip
col-sleeve = Sleeve
col-number = Number
col-part = Part
col-count = Count
col-from = Number, from
col-kit = Kit
col-holds = Holds
col-tool = Tool
col-range = Range
col-scale = Scale
col-step = Step
col-drive = Square
col-length = Length
col-resolution = Reads to
col-against = Protects from
col-measure = Measurement
col-shim = Shim
col-fill = Fill
col-heat = Heat
col-wait = Wait
col-bead = Bead
col-align = Alignment
col-turn = Turn
col-test = Test
col-stack = Stack
col-value = Value
col-details = To know
col-edition = Edition
col-page = Page
col-date = Date
col-by = By
col-read-by = Second reader
col-rests = What rests on it
col-changed = What
col-document = Where
col-revision = Revision
col-was = Was
col-because = Why
col-person = Person
col-wrote = Wrote or measured
col-read = Read a second time
col-signs = Signs
col-term = Word
col-means = Means
col-not = Not
col-stands = Stands in
col-open = Open item
col-left = Left
col-forbids = Until then
col-opened = Left open by
col-finished = Finished in
col-how-many = How many
col-spare = Spare
col-comes = Comes from
col-amount = Used altogether
col-packs = Packs
col-in-hand = Packs in hand
col-sets = Set
have-packs = { $count ->
    [one] { $count } pack
   *[other] { $count } packs
}
have-set = { $fastener }: { $set }
have-set-for = { $fastener }: { $set } for { $torque }
have-set-adapter = { $fastener }: { $set } with the adapter on, for { $torque }
have-stage = { $fastener }, stage { $stage }
have-begin = can begin now
comes-order = bought separately
comes-stock = from the shop's stock
comes-unstated = the manual does not say
col-recorded = As recorded
col-now = Now
col-answer = Answered by
col-revision-now = Revision now
col-fingerprint = Fingerprint
col-sheet = Its sheet
col-begun = Begun
col-done = Finished
col-reading-number = No.
col-reading = Read
col-spec = Spec now
col-limit = Limit now
col-verdict = Stands
col-when = When
col-signed-by = Signed by
col-as = As
col-what = What was done
col-thing = Of
col-finish = To be finished in

## Bench sheet

sheet-title = { $title }: bench sheet, { $machine }
sheet-all = every variant on one sheet
sheet-grid = Boxes for line { $number }
sheet-back = On the screen:
sheet-print = Print this page. It fits A4 and Letter.
sheet-begin = Before you start
sheet-after = Complete:
sheet-tick = done
sheet-set-by = wrench set by
sheet-shim = in hand:
sheet-signature = signature
sheet-date = date
sheet-tool = TOOL
sheet-hold = HOLD
sheet-sign = SIGN OFF
sheet-reset = RESET
sheet-reset-line = { $wrench }: { $from } → { $to }
sheet-stop = PAUSE
sheet-close = STOP
sheet-close-cover = Before it is closed: { $name }
sheet-close-act = Before this: { $words }
sheet-close-look = Look for
sheet-close-lines = { $name } ({ $count ->
        [one] line
       *[other] lines
    } { $lines })
sheet-close-where = { $name } ({ $place })
sheet-close-doubt = Missing, or in doubt? Do not go on.
sheet-close-seen = seen by
sheet-leaves = Stays open
sheet-leaves-text = Cut each tag out and tie it to its part.
sheet-tag-date = Left on
sheet-finish = Finish it in
sheet-stopped = I stopped here
sheet-stopped-step = after line
sheet-stopped-time = day and time
sheet-stopped-state = state of what is open
sheet-stopped-by = by
book-of = { $title }: book
book-about = the whole manual as one document to print
book-contents = Contents
book-contents-text = The number stands at the head of each page of its chapter. Pages are counted at the foot.
book-values-number = V
book-tables-number = T
board-of = Bolt board: { $name }
board-check = Print at 100 %. Both bars must measure 50 mm; if they do not, nothing else here is true.
board-use = Lay it on cardboard and punch each hole. Each bolt waits in its own place. The large figure is its turn when tightening.
board-bar = 50 mm
board-described = { $name }: { $count } holes at their true places, each with its turn when tightening, and two bars of 50 mm
card-title = Torque card
card-of = Torque card, { $machine }
card-shared = In several places
card-new = new each time
sheet-picture = Picture on the page: { $caption }
sheet-notes = Notes
# Words that join acts and say nothing of their own: a sentence of acts and these is not printed twice.
sheet-connectors = and then or now next
have-new = New, in hand
have-inspected = Again if it passes
have-parts = Parts
have-materials = Materials
have-wrenches = Wrenches
have-tools = Tools
have-protection = Protection
have-waits = Start now

# A paper held against the sheet of today. @was, @now, @paper and @page stay as they are: they are filled in on the page.
code-label = Square code of this sheet: it leads here and tells whether a paper is still current. Fingerprint { $fingerprint }.
code-values = fingerprint
paper-title = About the paper in your hand
paper-current = The paper in your hand is current.
paper-same-values = The paper in your hand is current: it is of revision { $was }, now { $now }, and no value on this sheet changed.
paper-older = This paper is out of date: revision { $was }, now { $now }. Do not use it.
paper-changed = This paper is out of date: a value on it has changed since it was printed. The sheet is of revision { $now } still. Do not use it.
paper-later = The paper is of revision { $was } and this page of revision { $now }: this page is the older one. Use neither before you know which is current.
paper-unreadable = The code of this paper can't be read. Compare the fingerprint printed on it with the one below.
paper-prints = Fingerprint on the paper: { $paper }. On this page: { $page }.
paper-changes = What changed on this sheet since:
paper-shared = Values that this sheet shares with others, and that have changed at some time:
change-told = { $of } was { $was } ({ $because })
change-short = { $of } was { $was }
change-not-there = not there

# Bulletins: what changed, and the sheet to look again by.
kind-bulletins = Bulletin
bulletins-title = Bulletins
bulletins-of = Bulletins of { $machine }
bulletins-about = What has changed in the values of this machine, newest first, and which recorded machines were built by an older value. A sheet is out of date where its fingerprint is not the one printed today.
bulletins-none = No change is recorded for this machine.
feed-none = No change of a value is listed for this revision.
recheck-title = Look again: { $build }
recheck-about = These values have changed since this machine was worked on. Look at each, write down what is found, sign. Whether the machine is opened again is decided by its maker's service data, local codes and a qualified person.
recheck-none = No recorded machine was built by a value that has changed since.
recheck-found = Found
recheck-done = Done
recheck-name = Name
recheck-sign = Signature
recheck-day = Date
recheck-critical = critical

# The review of a machine's values, its variants side by side, the source of a procedure.
kind-review = Review
kind-matrix = Variants
kind-source = Source
review-title = Review of the values
review-of = Review of the values of { $machine }
review-about = Every thing with values: what stands there now, since which revision where a change line tells it, from which source, who read that source a second time, and what Benchleaf held it against. A value that passes is plausible, consistent and sourced; never correct.
review-honesty = How each procedure stands
col-procedure = Procedure
col-with-values = Things with values
col-sourced = With a source
col-measured = Measured
col-twice = Read by two people
col-waived = Waived
review-second = Second readings of critical values
review-filters = Show only
review-all = Show all
review-filter = { $what }: { $count }
review-since = since revision { $revision }
review-critical = critical
review-nobody = nobody yet
review-mark-unsourced = Without a source
review-mark-heard = Only heard
review-mark-size-table = From a table by size
review-mark-practice = Common practice
review-mark-measured = Measured
review-mark-waived = Answered for by a waiver
review-mark-once = Source read by one person
review-mark-critical-once = Critical, and not read twice
review-checked-proof = torque against the proof load of thread and class
review-checked-units = both units against each other
review-checked-stages = the sum of the stages
review-checked-worked = the formula against its worked example
review-checked-formula = the formula and what it names
review-checked-limit = limit against spec
review-checked-form = form, unit and kind
honesty = { $all ->
    [one] Of 1 thing with values
   *[other] Of { $all } things with values
}, { $sourced ->
    [0] none has a source
    [1] 1 has a source
   *[other] { $sourced } have a source
}, { $measured ->
    [0] none was measured
    [1] 1 was measured
   *[other] { $measured } were measured
}, { $twice ->
    [0] none rests on a source read by two people
    [1] 1 rests on a source read by two people
   *[other] { $twice } rest on a source read by two people
}, { $waived ->
    [0] none is answered for by a waiver
    [1] 1 is answered for by a waiver
   *[other] { $waived } are answered for by a waiver
}.
machine-honesty = Its values
matrix-title = Variants side by side
matrix-of = Variants of { $machine } side by side
matrix-about = Every value that differs between variants, for every combination that is made. A gap is a combination for which no value is written.
matrix-by = By { $axes }
matrix-there = is there
matrix-is-there = yes
matrix-absent = not there
matrix-gap = GAP
matrix-left-out = By { $axes } there are too many combinations to be set side by side; each procedure shows its own.
source-link = Its source, as written
source-sheet-of = Source of { $title }
source-about = The file this procedure is made from, as its author wrote it. Lines are numbered; a proof copy shows what was found at each.
source-cut = { $count ->
    [one] 1 more line is in the file.
   *[other] { $count } more lines are in the file.
}
table-critical = Critical things and who read their values
col-entry = Thing
col-values = Values
col-checked = Held against

# A build record.
machine-builds = Machines built
build-of = { $machine } no. { $serial }
build-named = { $machine }, build { $name }
build-about = This is what the record tells. It is evidence of what was written down, not of what was done. Readings are held against spec and limit as they are now.
build-people = Worked on by
build-saved = Last saved
build-bulletins = What a bulletin changed since
build-tell = This machine was built by values that have changed since. Tell whoever has it. The maker's service data and a qualified person decide whether it is opened again.
build-no-bulletins = No change line bears on a value in this record.
build-record = The record
build-no-work = No work is recorded yet.
build-critical = nobody yet: critical
build-unanswered = nobody yet
build-not-there = not in this manual
build-stale = not the current one
build-current = current
build-unmarked = not told
build-in-hand = in hand
build-nobody = not told
build-untold = not told
build-count = { $count ->
    [one] { $count } value has changed since
   *[other] { $count } values have changed since
}
verdict-good = inside spec
verdict-worn = outside spec, inside the limit
verdict-out = outside the limit
verdict-none = nothing to hold it against
verdict-unclear = can't be judged
## Bench sheet on a phone: said by scripts. What they fill in is named as it is in braces

bench-hold = Hold to tick: { $name }
bench-ticked = Done { $time } · { $by }
bench-untick = Ticked. Hold to take the tick back: { $name }
bench-changed = Value changed: was { $was }, now { $now }. Tick again.
bench-grid-first = { $count } boxes of this line are still empty. Tick them first.
bench-box = Line { $number }, { $value }, position { $place }
bench-before-tick = Hold to tick: { $name }
bench-back = Back
bench-next = Next
bench-step = { $number } of { $all }
bench-start = Before you start
bench-end = Stays open
bench-one = One step a screen
bench-list = All steps in one list
bench-build = This build
bench-build-title = This build
bench-build-about = Ticks, readings and signatures stay on this device, for each serial number apart. Export them to keep them elsewhere.
bench-status = Serial { $serial } · { $by } · { $count } of { $all } ticked
bench-no-build = Enter the serial number and your name
bench-serial = Serial number of the machine
bench-who = Your name
bench-keep = Keep
bench-close = Close
bench-cancel = Cancel
bench-need-build = Nothing was ticked. Enter the serial number and your name first.
bench-need-who = Enter both: the serial number and your name.
bench-settings = On this device
bench-tap = Tick with a plain tap, without holding
bench-print-ticks = Print ticks and readings too; without this, paper has empty boxes
bench-awake = Keep the screen on
bench-awake-on = The screen stays on while this page is open.
bench-awake-off = The screen is not kept on just now.
bench-awake-none = This browser cannot keep the screen on. Set a longer time in the phone's own settings.
bench-units = Unit shown first
bench-units-printed = As printed
bench-units-metric = Metric
bench-units-customary = Inch and pound
bench-export = Export the record
bench-export-about = One small file with everything of this machine.
bench-import = Import a record
bench-imported = Taken in: { $count } new entries for serial { $serial }.
bench-imported-other = Taken in and kept, but not shown here: it is for machine { $machine }, serial { $serial }. Open a sheet of that machine.
bench-import-large = Nothing was taken in: the file is larger than any build record.
bench-import-json = Nothing was taken in: the file is not a build record, or it is damaged.
bench-import-form = Nothing was taken in: the record is not in order at { $place }.
bench-import-newer = Nothing was taken in: the record has a form that this page does not know ({ $value }).
bench-import-manual = It was made with the manual { $title }.
bench-import-left = { $count } fields that this page does not know were left out.
bench-import-full = Nothing was taken in: this device has no room or does not allow keeping it.
bench-revision-other = This procedure was begun on revision { $was }; this sheet is revision { $now }. Lines whose value changed are asked for again.
bench-fingerprint-other = Values on this sheet changed since this procedure was begun. Lines whose value changed are asked for again.
bench-variant-other = The record of serial { $serial } is for { $was }, this sheet is for { $now }. Do not work from this sheet before that is cleared up.
bench-variant-here = This machine is { $now }: change the record
bench-variant-open = Open the sheet for { $was }
bench-aside = { $count } entries of this procedure belong to lines that are not on this sheet. They are kept.
bench-aside-store = What this device had kept for this machine could not be read. It was put aside, not deleted.
bench-denied = This device keeps nothing: storage is full or not allowed. Export the record before you close this page.
bench-finish = Finish this procedure
bench-finished = Finished { $time }
bench-unfinish = Open it again
bench-unfinished = { $count } lines are not done yet.
bench-reading = Reading { $number }
bench-reading-one = Reading
bench-reading-unit = Unit of the readings
bench-inside = inside spec: { $spec }
bench-inside-limit = inside the limit: { $limit }
bench-outside-spec = outside spec, inside limit: { $limit }
bench-outside-spec-only = outside spec: { $spec }
bench-outside-limit = outside the limit: { $limit }
bench-outside-otherwise = Otherwise: { $otherwise }
bench-no-limit = kept; the sheet states no spec
bench-no-band = off the value stated, { $spec }, for which no tolerance is given
bench-not-number = This is no number. Write for instance 0.71 or 0,71.
bench-unit-unknown = { $unit } is not a unit this page knows.
bench-unit-other = { $unit } does not fit here.
bench-thousands = Point and comma both: is it one number or two? Write one of them only.
bench-read-as = read as { $value }
bench-at-teeth = at the teeth { $value }
bench-sign = Hold to sign: { $name }
bench-sign-name = Name of the one who signs
bench-signed = Signed { $time } · { $by }
bench-sign-twice = { $by } has signed here already. Two signatures are two people.
bench-sign-need = Write the name of the one who signs first.
bench-deviation = Note a deviation
bench-deviation-title = Deviation in step { $step }
bench-deviation-of = What it is about
bench-deviation-of-step = The step as a whole
bench-deviation-what = What was done otherwise
bench-deviation-because = Why
bench-deviation-need = Write what was done otherwise, and why.
bench-deviation-told = Deviation, { $name }: { $value } ({ $by }, { $time })
bench-deviation-remove = Take it back
bench-reckon-shim = Reckon the shim
bench-reckon-adapter = Reckon the setting with an adapter
bench-reckon-arc = Arc and degrees
bench-reckon-formula = { $name }: the formula
bench-reckon-reading = Reading
bench-reckon-old = Shim in place at the reading
bench-reckon-target = Target
bench-reckon-wants = { $formula } = { $value }
bench-reckon-take = Take { $size }.
bench-reckon-offer = { $size } gives { $gives }
bench-reckon-offer-off = { $size } gives { $gives }: not accepted
bench-reckon-none = No shim of the series is accepted. { $low } to { $high } are in the box.
bench-reckon-wrench-length = Length of the wrench L (middle of the grip to the square)
bench-reckon-adapter-length = Length of the adapter E (square to the fastener)
bench-reckon-angle = Angle of the adapter (0° in line, 90° square)
bench-reckon-torque = Torque at the fastener
bench-reckon-set = Set { $value }: { $formula }
bench-reckon-arc-length = Arc s
bench-reckon-diameter = Diameter D
bench-reckon-degrees = Degrees θ
bench-reckon-missing = Fill in what is missing: { $name }.
bench-reckon-impossible = No value comes of these numbers.
bench-reckon-median = The reading filled in is the middle one of yours.
bench-reckon-result = { $formula } = { $value }
bench-reckon-caution = Reckoned, not measured. The maker's service data decide.
bench-timer-start = Start the time: { $name }, { $value }
bench-timer-within = Start the time to keep within: { $name }, { $value }
bench-timer-running = { $name }: { $left } left, until { $time }
bench-timer-over = { $name }: over since { $time }
bench-timer-late = { $name }: the time ran out at { $time }
bench-timer-drop = Drop this time
bench-timer-soonest = { $value }
bench-clock-back = This device's clock went back by { $value }. Times that run now may end later than is shown. Look at another clock.
bench-clock-forward = This device's clock went forward by { $value }, or it slept, while this page was open. Look at another clock.
bench-clock-doubt = The clock changed while this time ran: look at another clock.
bench-wrenches = My wrenches
bench-wrenches-about = Kept on this device. Each torque then tells which of yours to take and what to set.
bench-wrench-name = Name
bench-wrench-low = Scale from
bench-wrench-high = Scale to
bench-wrench-unit = Unit of the scale
bench-wrench-length = Length in mm, middle of the grip to the square (for adapters)
bench-wrench-step = Step of the scale
bench-wrench-add = Add this wrench
bench-wrench-remove = Remove { $name }
bench-wrench-bad = Give a name, and a scale that goes from a smaller to a larger number.
bench-wrench-set = Yours: { $wrench }, set { $value }
bench-wrench-set-adapter = Yours: { $wrench } with the adapter, set { $value }: { $formula }
bench-wrench-length-missing = { $wrench } has no length: its setting with the adapter cannot be reckoned.
bench-wrench-none = None of your wrenches can be trusted at { $value }. Do not guess: borrow one that fits.
bench-wrench-range = { $wrench }: { $low }–{ $high } { $unit }
bench-notices = To know
bench-dismiss = Seen
bench-seconds = { $count } s
bench-minutes = { $count } min
bench-hours = { $count } h
bench-days = { $count } d

## Copy of the manual kept on a device: said by scripts

saved-new = New values are here.
saved-new-revision = New values are here: this page is now revision { $now }.
saved-load = Load them
saved-later = Later
saved-older = This page still shows older values.
