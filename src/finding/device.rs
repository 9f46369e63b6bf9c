//! Names that no file can have on Windows.

/// Device names of Windows, which it knows in every folder and with every extension (from Microsoft's
/// page "Naming Files, Paths, and Namespaces"; the last two from its console documentation).
const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "conin$", "conout$"];

/// Whether a file's or folder's name is that of a device of Windows, whatever its ending.
#[must_use]
pub fn is_device_name(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).trim_end().to_lowercase();
    let numbered = |port: &str| {
        stem.strip_prefix(port).is_some_and(|number| {
            let mut digits = number.chars();
            matches!((digits.next(), digits.next()), (Some('0'..='9' | '¹' | '²' | '³'), None))
        })
    };
    DEVICES.contains(&stem.as_str()) || numbered("com") || numbered("lpt")
}
