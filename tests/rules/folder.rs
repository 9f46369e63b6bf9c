//! A manual's folder for one sample: the base manual, changed as the page says.

use super::page::Change;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// The folder of a sample.
pub(crate) struct Folder {
    folder: TempDir,
    /// Files that nobody may read, as the page wants it.
    forbidden: Vec<PathBuf>,
    sockets: Vec<std::os::unix::net::UnixListener>,
}

impl Folder {
    /// A copy of the base manual with the changes of a sample.
    pub(crate) fn new(base: &Path, changes: &[Change]) -> Result<Self, String> {
        let folder = TempDir::new().map_err(|error| error.to_string())?;
        let mut folder = Self { folder, forbidden: Vec::new(), sockets: Vec::new() };
        copy(base, folder.path()).map_err(|error| error.to_string())?;
        for change in changes {
            match change {
                Change::File(path, text) => folder.write(path, text.as_bytes(), false)?,
                Change::Build(line) => folder.build(line).map_err(|fault| format!("‘{line}’: {fault}"))?,
            }
        }
        for path in &folder.forbidden {
            set_mode(path, 0o000)?;
        }
        Ok(folder)
    }

    pub(crate) fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Whether everything is as the page wants it: the system's own user may read what is forbidden.
    pub(crate) fn is_as_wanted(&self) -> bool {
        self.forbidden.iter().all(|path| fs::read(path).is_err())
    }

    /// One line of a `build` block: see README.md beside the pages.
    fn build(&mut self, line: &str) -> Result<(), String> {
        let (command, rest) = line.split_once(' ').ok_or("no command")?;
        match command {
            "remove" => {
                let path = self.path().join(rest);
                if path.is_dir() { fs::remove_dir_all(path) } else { fs::remove_file(path) }.map_err(|e| e.to_string())
            }
            "link" => {
                let (path, target) = rest.split_once(" -> ").ok_or("write PATH -> TARGET")?;
                std::os::unix::fs::symlink(target, self.parent_made(path)?).map_err(|error| error.to_string())
            }
            "forbid" => {
                self.forbidden.push(self.path().join(rest));
                Ok(())
            }
            "socket" => {
                let path = self.parent_made(rest)?;
                self.sockets.push(std::os::unix::net::UnixListener::bind(path).map_err(|error| error.to_string())?);
                Ok(())
            }
            "cut" => {
                let (bytes, path) = rest.split_once(' ').ok_or("write NUMBER PATH")?;
                let bytes: usize = bytes.parse().map_err(|_| "no number")?;
                let content = fs::read(self.path().join(path)).map_err(|error| error.to_string())?;
                self.write(path, content.get(..content.len().saturating_sub(bytes)).unwrap_or(&[]), false)
            }
            "add" => {
                let (times, rest) = rest.split_once(' ').ok_or("write NUMBER PATH TEXT")?;
                let (path, text) = rest.split_once(' ').ok_or("write NUMBER PATH TEXT")?;
                let times: usize = times.parse().map_err(|_| "no number")?;
                self.write(&unescaped_path(path)?, &unescaped(text)?.repeat(times), true)
            }
            "png" => {
                let (size, path) = rest.split_once(' ').ok_or("write WIDTHxHEIGHT PATH")?;
                let (width, height) = size.split_once('x').ok_or("write WIDTHxHEIGHT PATH")?;
                let number = |text: &str| text.parse::<u32>().map_err(|_| "no number");
                self.write(&unescaped_path(path)?, &png(number(width)?, number(height)?)?, false)
            }
            _ => Err("no such command".to_owned()),
        }
    }

    fn write(&self, path: &str, content: &[u8], append: bool) -> Result<(), String> {
        let mut options = fs::OpenOptions::new();
        options.create(true).write(true).append(append).truncate(!append);
        let mut file = options.open(self.parent_made(path)?).map_err(|error| error.to_string())?;
        file.write_all(content).map_err(|error| error.to_string())
    }

    fn parent_made(&self, path: &str) -> Result<PathBuf, String> {
        let path = self.path().join(path);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent).map_err(|error| error.to_string())?;
        }
        Ok(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        for path in &self.forbidden {
            // What can't be given back its permission can be removed all the same.
            let _ = set_mode(path, 0o755);
        }
    }
}

fn set_mode(path: &Path, mode: u32) -> Result<(), String> {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).map_err(|error| error.to_string())
}

/// Copies a folder with all that is in it.
fn copy(from: &Path, to: &Path) -> std::io::Result<()> {
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            fs::create_dir_all(&target)?;
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}

/// The bytes of a text with `\n`, `\\` and `\xB7` in it.
fn unescaped(text: &str) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('\\') {
        bytes.extend(before.bytes());
        let mut signs = after.chars();
        match signs.next() {
            Some('n') => bytes.push(b'\n'),
            Some('\\') => bytes.push(b'\\'),
            Some('x') => {
                let digits = after.get(1..3).ok_or("two digits follow \\x")?;
                bytes.push(u8::from_str_radix(digits, 16).map_err(|error| error.to_string())?);
                signs = after.get(3..).unwrap_or("").chars();
            }
            _ => return Err("a backslash stands before n, x or \\".to_owned()),
        }
        rest = signs.as_str();
    }
    bytes.extend(rest.bytes());
    Ok(bytes)
}

fn unescaped_path(path: &str) -> Result<String, String> {
    String::from_utf8(unescaped(path)?).map_err(|error| error.to_string())
}

/// A grey PNG of this size. One too large to be made in memory consists of a true header only.
fn png(width: u32, height: u32) -> Result<Vec<u8>, String> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    let pixels = |w, h| image::GrayImage::from_pixel(w, h, image::Luma([128]));
    if u64::from(width) * u64::from(height) <= 1_000_000 {
        pixels(width, height).write_to(&mut bytes, image::ImageFormat::Png).map_err(|error| error.to_string())?;
        return Ok(bytes.into_inner());
    }
    pixels(1, 1).write_to(&mut bytes, image::ImageFormat::Png).map_err(|error| error.to_string())?;
    let mut bytes = bytes.into_inner();
    // Width and height are the first two fields of the chunk IHDR, behind the signature of eight bytes, its length
    // and its name (PNG, third edition, W3C 2025, 5.2 and 11.2.1); its check sum follows its thirteen bytes.
    bytes.splice(16..24, width.to_be_bytes().into_iter().chain(height.to_be_bytes()));
    let sum = check_sum(&bytes[12..29]);
    bytes.splice(29..33, sum.to_be_bytes());
    Ok(bytes)
}

/// The CRC of ISO 3309, as PNG uses it.
fn check_sum(bytes: &[u8]) -> u32 {
    let one = |sum: u32, byte: &u8| (0..8).fold(sum ^ u32::from(*byte), |s, _| if s & 1 == 1 { 0xedb8_8320 ^ (s >> 1) } else { s >> 1 });
    !bytes.iter().fold(u32::MAX, one)
}

#[test]
fn the_check_sum_is_that_of_the_standard() {
    // Check value of CRC-32 (ISO 3309, ITU-T V.42) over the digits 1 to 9.
    assert_eq!(check_sum(b"123456789"), 0xcbf4_3926);
}

#[test]
fn escapes_become_bytes() {
    assert_eq!(unescaped("a\\nb\\\\\\xB7 c").unwrap(), b"a\nb\\\xb7 c");
    assert!(unescaped("\\q").is_err() && unescaped("\\x1").is_err());
}
