//! Rules about folders and files as such.

use crate::finding::{Explanation, Rule, Severity};

/// A file that the machine will not let us read.
pub static FILE_NOT_READABLE: Rule = Rule {
    name: "file-not-readable",
    severity: Severity::Error,
    summary: "A file or folder of the manual can't be opened.",
    explanation: Explanation {
        finds: "A file or folder below the manual's folder that the system refuses to open or to read to its end: no permission, a failing disk, a file that went away while it was read.",
        matters: "What can't be read can't be checked. A procedure that silently dropped out of the manual takes its warnings and torque values with it.",
        may_be_wrong: "When a sync service holds the file only for a moment: run the inspection again.",
        example: "tarn-18/close-gearcase.md, readable by its owner only",
        instead: "chmod a+r tarn-18/close-gearcase.md",
    },
};

/// A file that stands where nothing looks for it.
pub static FILE_OUT_OF_PLACE: Rule = Rule {
    name: "file-out-of-place",
    severity: Severity::Warning,
    summary: "A file stands where the manual does not look for it, so it is left out.",
    explanation: Explanation {
        finds: "Files that look as if they were meant for the manual but stand in the wrong folder or bear the wrong name: a procedure directly in the manual's folder or two folders deep, `machine.yml` for `machine.yaml`, a note among the pictures.",
        matters: "A procedure in the wrong folder is simply not in the printed manual. Nobody at the bench misses a page that was never there.",
        may_be_wrong: "For working notes you keep beside the manual on purpose. Give them a name with a dot in front, or keep them elsewhere: both are ignored.",
        example: "manual/close-gearcase.md",
        instead: "manual/tarn-18/close-gearcase.md",
    },
};

/// A file beyond the size a manual's file may have.
pub static FILE_TOO_LARGE: Rule = Rule {
    name: "file-too-large",
    severity: Severity::Error,
    summary: "A text file or a procedure's front matter is larger than any real one.",
    explanation: Explanation {
        finds: "A text file over 2 MiB, or front matter over 512 KiB. Such a file is not read at all.",
        matters: "A procedure of that size can't be printed or walked through; mostly something was pasted by accident, such as a picture as text, and the values stand somewhere behind it.",
        may_be_wrong: "Hardly ever: a long procedure with all its values has some 40 KiB.",
        example: "gearcase.md, 9 MiB, with a photograph pasted into its text",
        instead: "gearcase.md with ![Gearcase open](pictures/gearcase.jpg)",
    },
};

/// A procedure that does not begin with front matter.
pub static FRONT_MATTER_MISSING: Rule = Rule {
    name: "front-matter-missing",
    severity: Severity::Error,
    summary: "A procedure does not begin with its front matter.",
    explanation: Explanation {
        finds: "A procedure whose first line is not `---`. Front matter stands at the very start of the file, before any text or empty line.",
        matters: "Title, revision, date and every value live in the front matter. Without it the sheet would be prose with nothing behind it: no torque, no source, no revision to compare with.",
        may_be_wrong: "When the file is no procedure. Then keep it outside the machine's folder.",
        example: "Pinion height and backlash\n\n## Measure {#measure}",
        instead: "---\ntitle: Pinion height and backlash\nrevision: 1\ndate: 2026-09-14\n---\n\n## Measure {#measure}",
    },
};

/// Front matter without its closing line.
pub static FRONT_MATTER_UNCLOSED: Rule = Rule {
    name: "front-matter-unclosed",
    severity: Severity::Error,
    summary: "A procedure's front matter is opened but never closed.",
    explanation: Explanation {
        finds: "A procedure that opens with `---` and has no second line of `---`, so that nothing tells where the values end and the steps begin.",
        matters: "Steps read as values, or values as steps, would put the wrong number beside the wrong fastener. The file is not read until this is mended.",
        may_be_wrong: "Never: the second line is required.",
        example: "---\ntitle: Pinion height\n\n## Measure {#measure}",
        instead: "---\ntitle: Pinion height\n---\n\n## Measure {#measure}",
    },
};

/// A machine's folder without `machine.yaml`.
pub static MACHINE_HEAD_MISSING: Rule = Rule {
    name: "machine-head-missing",
    severity: Severity::Error,
    summary: "A folder holds procedures but no machine.yaml.",
    explanation: Explanation {
        finds: "A folder with procedures in it that has no `machine.yaml`.",
        matters: "Only machine.yaml says which machine the values are for, which variants it was made in, and which values its procedures share. A sheet that names no machine ends up under the wrong one.",
        may_be_wrong: "When the folder is no machine at all: then its `.md` files belong elsewhere.",
        example: "tarn-18/\n  close-gearcase.md",
        instead: "tarn-18/\n  machine.yaml\n  close-gearcase.md",
    },
};

/// What a merge has left behind.
pub static MERGE_UNFINISHED: Rule = Rule {
    name: "merge-unfinished",
    severity: Severity::Error,
    summary: "A line that a merge has left behind still parts two states of the file.",
    explanation: Explanation {
        finds: "Lines that begin with seven `<`, `=` or `>`, as a merge writes them where two people changed the same lines, and the line of seven `|` that some write between them. Until they are out nothing else is told of the file.",
        matters: "Both versions pass as text, and both stand on the sheet: the bolt is tightened to the old value and to the new one.",
        may_be_wrong: "Never: nothing in a procedure, a list or a record begins with such a line.",
        example: "<<<<<<< HEAD\n[Tighten it](torque:pinion-nut).\n=======\n[Tighten it in two rounds](torque:pinion-nut).\n>>>>>>> second-reader",
        instead: "[Tighten it in two rounds](torque:pinion-nut).",
    },
};

/// A name that can't serve as an id.
pub static NAME_NOT_AN_ID: Rule = Rule {
    name: "name-not-an-id",
    severity: Severity::Error,
    summary: "A file, folder or step has a name that can't be an id.",
    explanation: Explanation {
        finds: "Names of machine folders, procedures and steps that are not lower-case words joined by hyphens (a–z, 0–9 and `-`), and names of pictures that no link can hold (spaces, quotes, `#`, `%`).",
        matters: "The name becomes the address of the page, the mark on the printed sheet and what other procedures point at. `A.md` and `a.md` are two files on one computer and one on the next, and a link with a space in it is no link.",
        may_be_wrong: "Never for procedures and machines. The title, in the front matter, may be written as you like.",
        example: "tarn-18/Close Gearcase.md",
        instead: "tarn-18/close-gearcase.md",
    },
};

/// A device, pipe or socket among the files.
pub static SPECIAL_FILE: Rule = Rule {
    name: "special-file",
    severity: Severity::Error,
    summary: "Something that is neither a file nor a folder lies in the manual.",
    explanation: Explanation {
        finds: "A pipe, socket or device below the manual's folder. It is never opened: reading one can wait for ever.",
        matters: "A manual is files that can be copied to another computer and printed there. Something else in it means that the folder is not what it seems.",
        may_be_wrong: "When another program keeps its socket there: point that program at another folder.",
        example: "tarn-18/notes.md (a pipe)",
        instead: "tarn-18/notes.md (a file)",
    },
};

/// A symbolic link that is not followed.
pub static SYMBOLIC_LINK_REFUSED: Rule = Rule {
    name: "symbolic-link-refused",
    severity: Severity::Error,
    summary: "A symbolic link leads out of the manual, round in a circle, to a folder, or nowhere.",
    explanation: Explanation {
        finds: "A symbolic link whose target lies outside the manual's folder, does not exist, leads back to itself, or is a folder. A link to a file inside the manual is read.",
        matters: "A manual has to be complete in its folder: the copy on the next computer has no target for the link, and a link out of it could publish a file nobody meant to publish.",
        may_be_wrong: "When you share pictures between two manuals by links: copy them instead.",
        example: "tarn-18/pictures -> /home/editor/photos",
        instead: "tarn-18/pictures/ with the photographs in it",
    },
};

/// Bytes that are no UTF-8.
pub static TEXT_NOT_UTF8: Rule = Rule {
    name: "text-not-utf8",
    severity: Severity::Error,
    summary: "A text file is not written in UTF-8.",
    explanation: Explanation {
        finds: "A text file with bytes that are not UTF-8, mostly one saved as Windows-1252, Latin-1 or UTF-16. The place is that of the first wrong byte; the file is not read.",
        matters: "In such files it is exactly the signs of units and tolerances that go wrong: `·`, `°`, `±`, `µ`, `–`. Guessing them would be guessing values.",
        may_be_wrong: "Never: save the file as UTF-8.",
        example: "torque: 24 N·m (the dot saved as the single byte B7)",
        instead: "torque: 24 N·m (the dot saved as the two bytes C2 B7)",
    },
};

/// A theme that can't be used.
pub static THEME_UNUSABLE: Rule = Rule {
    name: "theme-unusable",
    severity: Severity::Error,
    summary: "The folder named in theme: is not there, lies elsewhere, or holds what no theme can.",
    explanation: Explanation {
        finds: "`theme:` in manual.yaml that names no folder, the manual's own folder or one outside it; a theme with folders within folders, a symbolic link, a file over 2 MiB, over 16 MiB in all, or one that can't be read.",
        matters: "Nothing is published without the theme that is asked for. A folder outside the manual is never taken: whatever lies in a theme is published, and a manual that came from elsewhere could name any folder of this computer.",
        may_be_wrong: "Never: where the built-in pages will do, take the line out.",
        example: "theme: ../looks/our-club",
        instead: "theme: our-club   with the folder our-club/ beside manual.yaml",
    },
};

/// So many faults in a file that the rest is not shown.
pub static TOO_MANY_FAULTS: Rule = Rule {
    name: "too-many-faults",
    severity: Severity::Error,
    summary: "A file has so many faults that the rest of them is not shown.",
    explanation: Explanation {
        finds: "The place in a file where the two-hundred-and-first fault of reading stands. Faults after it are not listed.",
        matters: "Several hundred faults mostly have one cause, such as a wrong kind of file or a lost quote. A list of them all would hide it.",
        may_be_wrong: "It is no fault in itself: mend what is shown and inspect again.",
        example: "tarn-18/pinion.md: a spreadsheet saved under a procedure's name",
        instead: "tarn-18/pinion.md: the procedure",
    },
};
