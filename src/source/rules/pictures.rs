//! Rules about photographs and drawings.

use crate::finding::{Explanation, Rule, Severity};

/// A picture whose name tells another format than its bytes.
pub static PICTURE_MISNAMED: Rule = Rule {
    name: "picture-misnamed",
    severity: Severity::Warning,
    summary: "A picture's name ends otherwise than its content says.",
    explanation: Explanation {
        finds: "A picture whose bytes are of another format than the end of its name says, such as a PNG called `carrier.jpg`.",
        matters: "Browsers and printers go by the name when a sheet is saved or mailed, and show an empty frame where the mechanic looks for the seal's direction.",
        may_be_wrong: "Never: rename the file, and the picture in the text with it.",
        example: "pictures/carrier.jpg (a PNG)",
        instead: "pictures/carrier.png (a PNG)",
    },
};

/// A drawing that could do more than be looked at.
pub static PICTURE_REFUSED: Rule = Rule {
    name: "picture-refused",
    severity: Severity::Error,
    summary: "A drawing holds scripts, foreign content or calls to other addresses.",
    explanation: Explanation {
        finds: "An SVG drawing with scripts, event attributes, moving parts, embedded pages, a document type or entities, styles or references that load something from elsewhere. Pictures inside it must be embedded as PNG or JPEG.",
        matters: "A manual is opened beside a running engine and on the phone of a stranger: it may load nothing from elsewhere and run nothing an author did not mean to be run. A drawing that needs the net is empty in a boathouse.",
        may_be_wrong: "Some drawing programs write a document type or a style sheet's address by habit. Save as plain SVG, or remove those lines: the drawing stays the same.",
        example: "<svg …><image href=\"https://pictures.example/carrier.png\"/></svg>",
        instead: "<svg …><image href=\"data:image/png;base64,…\"/></svg>",
    },
};

/// A picture beyond what a manual's picture may have.
pub static PICTURE_TOO_LARGE: Rule = Rule {
    name: "picture-too-large",
    severity: Severity::Error,
    summary: "A picture is larger than can be worked on.",
    explanation: Explanation {
        finds: "A picture over 64 MiB, over 20 000 pixels on a side or over 100 megapixels. It is not decoded.",
        matters: "Such a picture takes gigabytes to unpack and shows no more on paper: a sheet of A4 at 300 dots an inch has nine megapixels.",
        may_be_wrong: "For scans of large drawings. Cut them into the details that the steps need, or draw them as SVG.",
        example: "pictures/whole-engine.png, 30 000 × 24 000 pixels",
        instead: "pictures/carrier-detail.png, 4 000 × 3 000 pixels",
    },
};

/// A picture that is damaged or of a format we don't know.
pub static PICTURE_UNREADABLE: Rule = Rule {
    name: "picture-unreadable",
    severity: Severity::Error,
    summary: "A picture is empty, cut off, damaged or of an unknown format.",
    explanation: Explanation {
        finds: "A picture whose header can't be read, that is shorter than it says, has no size, or is of a format other than JPEG, PNG, WebP or SVG. Damage behind a header shows when `bind` unpacks the picture.",
        matters: "A photograph cut off in a broken copy prints half grey, and the half that is missing may be the one with the shim in it.",
        may_be_wrong: "A camera may leave out the last marker of a JPEG. Open it, save it again, and it is there.",
        example: "pictures/carrier.jpg, 0 bytes",
        instead: "pictures/carrier.jpg, copied again from the camera",
    },
};
