//! `proof` from end to end: the real program, a copy of the demo, requests written byte by byte.
//!
//! What is refused is what RFC 9110 and RFC 9112 (HTTP) and the usual attacks on local servers ask for: a way out of the
//! folder in every spelling, another host's name (DNS rebinding), methods that change something.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and looks at real folders")]

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::time::Duration;
use tempfile::TempDir;

const PAGE: &str = "tarn-18/close-gearcase.html";
const SOURCE: &str = "tarn-18/close-gearcase.md";
/// Longer than a slow machine takes for one rebuild of the demo in a debug build.
const PATIENCE: Duration = Duration::from_secs(60);

struct Proof {
    child: Child,
    at: SocketAddr,
    _scratch: TempDir,
    manual: PathBuf,
}

impl Proof {
    fn start() -> Self {
        Self::start_by(&mut Command::new(env!("CARGO_BIN_EXE_benchleaf")))
    }

    /// The same, by a command that runs the program with what is given to it.
    fn start_by(command: &mut Command) -> Self {
        let scratch = tempfile::tempdir().unwrap();
        let manual = scratch.path().join("manual");
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures"), &manual);
        // Out of another folder, so that no published site is near to compare with.
        let mut child = command.current_dir(scratch.path()).args(["proof", "manual", "--port", "0"]).stdout(Stdio::piped()).spawn().unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let at = line.trim().strip_prefix("http://").and_then(|rest| rest.strip_suffix('/')).unwrap().parse().unwrap();
        Self { child, at, _scratch: scratch, manual }
    }

    /// Sends bytes as they are, and gives all that comes back.
    fn raw(&self, request: &[u8]) -> String {
        let mut stream = TcpStream::connect(self.at).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        stream.write_all(request).unwrap();
        let mut answer = Vec::new();
        // A refused connection may be reset behind the answer.
        let _ = stream.read_to_end(&mut answer);
        String::from_utf8_lossy(&answer).into_owned()
    }

    fn ask(&self, method: &str, target: &str, host: &str, more: &str) -> String {
        self.raw(format!("{method} {target} HTTP/1.1\r\nHost: {host}\r\n{more}Connection: close\r\n\r\n").as_bytes())
    }

    fn get(&self, target: &str) -> String {
        self.ask("GET", target, &self.at.to_string(), "")
    }

    /// The state a page says it has.
    fn state(&self, page: &str) -> String {
        let answer = self.get(&format!("/{page}"));
        answer.split_once("data-state=\"").unwrap().1.split('"').next().unwrap().to_owned()
    }

    /// Waits until a page is no longer in a state, as an open page does.
    fn wait(&self, page: &str, state: &str) {
        let mut stream = TcpStream::connect(self.at).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        write!(stream, "GET /.proof/news/{state}/{page} HTTP/1.1\r\nHost: {}\r\n\r\n", self.at).unwrap();
        let mut lines = BufReader::new(stream).lines();
        assert!(lines.any(|line| line.unwrap() == "event: changed"), "the connection ended without news");
    }

    /// Does something to the manual, and waits for the page to hear of it.
    fn after(&self, page: &str, change: impl FnOnce(&Path)) -> String {
        let state = self.state(page);
        change(&self.manual);
        self.wait(page, &state);
        self.get(&format!("/{page}"))
    }

    /// The same, until the page has these words: one change may come in several saves.
    fn until(&self, page: &str, words: &str, change: impl FnOnce(&Path)) -> String {
        let mut answer = self.after(page, change);
        while !answer.contains(words) {
            answer = self.after(page, |_| ());
        }
        answer
    }
}

impl Drop for Proof {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn program(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_benchleaf"));
    command.current_dir(folder);
    command
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let (path, target) = entry.map(|entry| (entry.path(), to.join(entry.file_name()))).unwrap();
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).unwrap();
        }
    }
}

fn with(path: &Path, from: &str, to: &str) -> String {
    let text = fs::read_to_string(path).unwrap();
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

fn status(answer: &str) -> &str {
    answer.split(' ').nth(1).unwrap_or("none")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

#[test]
fn a_page_is_a_marked_proof_that_nothing_foreign_can_use() {
    let proof = Proof::start();
    let answer = proof.get(&format!("/{PAGE}"));
    let (head, body) = answer.split_once("\r\n\r\n").unwrap();
    assert_eq!(status(head), "200");
    let head = head.to_lowercase();
    for line in [
        "content-type: text/html; charset=utf-8", "x-content-type-options: nosniff", "cache-control: no-store", "referrer-policy: no-referrer",
        "content-security-policy: default-src 'none'; script-src 'self'; style-src 'self';", "frame-ancestors 'none'", "cross-origin-resource-policy: same-origin",
    ] {
        assert!(head.contains(line), "{line}\n{head}");
    }
    assert!(body.contains("PROOF, NOT FOR USE") && body.contains("Proof on this machine"));
    assert_eq!(status(&proof.get("/")), "200");
    assert_eq!(status(&proof.get("/tarn-18/")), "200");
    for (path, kind) in [("/.proof/proof.js", "text/javascript"), ("/page.css", "text/css"), ("/mark.svg", "image/svg+xml"), ("/.proof/findings.html", "text/html")] {
        let answer = proof.get(path).to_lowercase();
        assert!(status(&answer) == "200" && answer.contains(&format!("content-type: {kind}")), "{path}: {answer}");
    }
    let answer = proof.ask("HEAD", "/", &proof.at.to_string(), "");
    assert!(status(&answer) == "200" && answer.ends_with("\r\n\r\n"), "{answer}");
    // What keeps a published manual on a device must not keep a proof.
    assert_eq!(status(&proof.get("/offline.js")), "404");
}

#[test]
fn there_is_no_way_out_of_the_site() {
    let proof = Proof::start();
    fs::write(proof.manual.join("../secret.txt"), "SECRET").unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(proof.manual.join("../secret.txt"), proof.manual.join("tarn-18/link.txt")).unwrap();
    for path in [
        "/../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/%2e%2e%2fsecret.txt", "/tarn-18/../../secret.txt", "/..\\secret.txt", "/..%5csecret.txt",
        "/%252e%252e/secret.txt", "//secret.txt", "/etc/passwd", "//etc/passwd", "/%2fetc%2fpasswd", "/index.html%00.txt", "/%00", "/%ff%fe", "/manual.yaml",
        "/tarn-18/machine.yaml", "/tarn-18/close-gearcase.md", "/tarn-18/link.txt", "/.git/config", "/tarn-18", "/.proof/", "/.proof/../secret.txt", "/pictures/",
        "/.values.json", "/.proof/news/x", "/C:/Windows/win.ini",
    ] {
        let answer = proof.get(path);
        assert!(matches!(status(&answer), "400" | "404"), "{path}: {answer}");
        assert!(!answer.contains("SECRET") && !answer.contains("root:"), "{path}");
    }
    assert_eq!(status(&proof.get("/")), "200");
}

#[test]
fn what_is_not_plainly_meant_for_it_is_refused() {
    let proof = Proof::start();
    let own = proof.at.to_string();
    let port = proof.at.port();
    for host in ["rebound.example", &format!("rebound.example:{port}"), "127.0.0.1", "127.0.0.1:1", &format!("192.0.2.1:{port}"), &format!("127.0.0.1.rebound.example:{port}")] {
        assert_eq!(status(&proof.ask("GET", "/", host, "")), "421", "{host}");
    }
    assert_eq!(status(&proof.ask("GET", "/", &format!("localhost:{port}"), "")), "200");
    assert_eq!(status(&proof.ask("GET", &format!("http://rebound.example:{port}/"), &own, "")), "421");
    assert_eq!(status(&proof.ask("GET", "/", &own, &format!("Host: {own}\r\n"))), "400");
    assert_eq!(status(&proof.raw(b"GET / HTTP/1.1\r\nConnection: close\r\n\r\n")), "400");
    for method in ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"] {
        let answer = proof.ask(method, "/", &own, "");
        assert!(status(&answer) == "405" && answer.to_lowercase().contains("allow: get, head"), "{method}: {answer}");
    }
    assert_eq!(status(&proof.ask("GET", "/page.js", &own, "Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: no-cors\r\n")), "403");
    assert_eq!(status(&proof.ask("GET", "/", &own, "Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: navigate\r\n")), "200");
    // No HTTP at all, half a request, a name as long as a book: the next request is answered all the same.
    proof.raw(b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n");
    drop(TcpStream::connect(proof.at).unwrap().write_all(b"GET / HT"));
    let long = proof.get(&format!("/{}", "a".repeat(1_000_000)));
    assert!(!long.starts_with("HTTP/1.1 2"), "{}", long.get(..40).unwrap_or_default());
    assert_eq!(status(&proof.get("/")), "200");
}

/// RFC 9112: forms of the target (3.2), lengths that disagree (6.3, request smuggling), line ends (2.2); RFC 3629, section 10:
/// overlong spellings of a dot and a slash.
#[test]
fn requests_of_ill_will_get_nothing_and_keep_nobody_waiting() {
    let proof = Proof::start();
    fs::write(proof.manual.join("../secret.txt"), "SECRET").unwrap();
    let own = proof.at.to_string();
    let harmless = |answer: &str, what: &str| {
        assert!(!answer.contains("SECRET") && !answer.contains("root:") && !answer.contains("publisher:"), "{what}: {answer}");
    };
    for target in [
        "/%c0%ae%c0%ae/secret.txt", "/%c0%ae%c0%ae%c0%afsecret.txt", "/%e0%80%ae%e0%80%ae/secret.txt", "/%uff0e%uff0e/secret.txt", "/\u{ff0e}\u{ff0e}/secret.txt", "/.%00./secret.txt", "/..;/secret.txt", "/.../secret.txt",
        "/tarn-18/..%5c..%5csecret.txt", "/%5c%5clocalhost%5csecret.txt", "/%2e%2e%5csecret.txt", "/tarn-18%2f..%2f..%2fsecret.txt", "/?/../secret.txt", "/.proof/news/%2e%2e/secret.txt", "/.proof/%2e%2e/%2e%2e/secret.txt",
        "/file:///etc/passwd", "/.benchleaf-kept", "/manual.yaml%20", "/manual.yaml.", "/MANUAL.YAML", "/manual.yaml::$DATA",
    ] {
        let answer = proof.get(target);
        harmless(&answer, target);
        assert!(target.starts_with("/?") || matches!(status(&answer), "400" | "404"), "{target}: {answer}");
    }
    let rest = format!(" HTTP/1.1\r\nHost: {own}\r\nConnection: close\r\n");
    for (what, request) in [
        ("the same host, out of the folder", format!("GET http://{own}/../secret.txt{rest}\r\n")),
        ("a file's address", format!("GET file:///etc/passwd{rest}\r\n")),
        ("no path", format!("GET secret.txt{rest}\r\n")),
        ("a tunnel", format!("CONNECT {own}{rest}\r\n")),
        ("the server as a whole", format!("OPTIONS *{rest}\r\n")),
        ("two lengths", format!("GET /{rest}Content-Length: 3\r\nContent-Length: 40\r\n\r\nabc")),
        ("a length and pieces", format!("POST /{rest}Content-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /manual.yaml HTTP/1.1\r\n\r\n")),
        ("a length below nothing", format!("POST /{rest}Content-Length: -1\r\n\r\n")),
        ("a length beyond all", format!("POST /{rest}Content-Length: 99999999999999999999999\r\n\r\n")),
        ("a folded line", format!("GET /{rest}X: a\r\n b\r\n\r\n")),
        ("a NUL", format!("GET /\0index.html{rest}\r\n")),
        ("another protocol", format!("GET / HTTP/9.9\r\nHost: {own}\r\n\r\n")),
        ("no version", "GET /\r\n".to_owned()),
        ("the preface of HTTP/2", "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n".to_owned()),
        ("ten thousand heads", format!("GET /{rest}{}\r\n", "X: y\r\n".repeat(10_000))),
        ("a head as long as a book", format!("GET /{rest}X: {}\r\n\r\n", "y".repeat(2_000_000))),
        ("line ends alone", "\r\n".repeat(10_000)),
    ] {
        let mut stream = TcpStream::connect(proof.at).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        // It may be refused before all of it is sent.
        let _ = stream.write_all(request.as_bytes());
        let _ = stream.shutdown(std::net::Shutdown::Write);
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        harmless(&text(&answer), what);
    }
    // Requests that never come to their end keep nobody else waiting.
    let stalled: Vec<TcpStream> = (0..300)
        .map(|_| {
            let mut stream = TcpStream::connect(proof.at).unwrap();
            stream.write_all(b"GET / HTTP/1.1\r\nHost: ").unwrap();
            stream
        })
        .collect();
    assert_eq!(status(&proof.get("/")), "200");
    drop(stalled);
    assert_eq!(status(&proof.get("/")), "200");
}

#[test]
fn an_open_page_hears_of_each_way_to_save() {
    let proof = Proof::start();
    let answer = proof.after(PAGE, |manual| fs::write(manual.join(SOURCE), with(&manual.join(SOURCE), "title: ", "title: First ")).unwrap());
    assert!(answer.contains("<h1>First "), "{answer}");
    // As editors save: into a new file, which then takes the name; the old one is moved aside.
    let answer = proof.after(PAGE, |manual| {
        let new = manual.join("tarn-18/.close-gearcase.md.swp");
        fs::write(&new, with(&manual.join(SOURCE), "title: First ", "title: Second ")).unwrap();
        fs::rename(manual.join(SOURCE), manual.join(format!("{SOURCE}~"))).unwrap();
        fs::rename(new, manual.join(SOURCE)).unwrap();
    });
    assert!(answer.contains("<h1>Second "), "{answer}");
    // Thousands of events at once become few states; the last one counts.
    let answer = proof.until(PAGE, "<h1>Third 1999 ", |manual| {
        let file = manual.join(SOURCE);
        let text = with(&file, "title: Second ", "title: Third @ ");
        for at in 0..2000 {
            fs::write(&file, text.replacen('@', &at.to_string(), 1)).unwrap();
        }
    });
    assert!(answer.contains("<h1>Third 1999 "));
    // A page that another save does not touch keeps its state; one that comes and goes is followed.
    let other = proof.state("hb-2/index.html");
    let answer = proof.until("tarn-18/new-one.html", "<h1>Fourth ", |manual| fs::write(manual.join("tarn-18/new-one.md"), with(&manual.join(SOURCE), "title: Third 1999 ", "title: Fourth ")).unwrap());
    assert_eq!(status(&answer), "200");
    let answer = proof.until("tarn-18/new-one.html", "No such page", |manual| fs::remove_file(manual.join("tarn-18/new-one.md")).unwrap());
    assert_eq!(status(&answer), "404");
    assert_eq!(other, proof.state("hb-2/index.html"));
}

#[test]
fn a_finding_stands_on_its_page_and_in_the_list() {
    let proof = Proof::start();
    let file = "tarn-18/pinion-height-and-backlash";
    let page = format!("{file}.html");
    let source = proof.manual.join(format!("{file}.md"));
    let answer = proof.after(&page, |_| fs::write(&source, with(&source, "(torque:pinion-nut)", "(torque:pinoin-nut)")).unwrap());
    assert!(answer.contains("pinoin-nut") && !answer.contains(" 0 errors") && answer.contains("class=\"fault fault-error\""), "{answer}");
    let list = proof.get("/.proof/findings.html");
    assert!(list.contains(&format!("<a href=\"/{page}\">{file}.md</a>")) && list.contains("<mark>"), "{list}");
    let inspected = program(proof.manual.parent().unwrap()).args(["inspect", "manual"]).output().unwrap();
    let told = text(&inspected.stdout);
    let message = told.lines().find_map(|line| line.strip_prefix("Error — ")).unwrap().rsplit_once(" (").unwrap().0.to_owned();
    assert!(list.contains(&message.replace('\'', "&#x27;")) || list.contains(&message) || list.contains(&message.replace('\'', "&#39;")), "{message}\n{list}");
}

#[test]
fn a_broken_save_keeps_the_last_good_page_and_says_what_is_wrong() {
    let proof = Proof::start();
    let good = fs::read_to_string(proof.manual.join(SOURCE)).unwrap();
    let title = good.lines().find_map(|line| line.strip_prefix("title: ")).unwrap().to_owned();
    for (broken, rule) in [
        (with(&proof.manual.join(SOURCE), "fasteners:", "fasteners: [{"), "yaml-unreadable"),
        (good.replacen("\n---\n", "\n\n", 1), "front-matter-unclosed"),
        (String::new(), "front-matter-missing"),
    ] {
        let answer = proof.after(PAGE, |manual| fs::write(manual.join(SOURCE), &broken).unwrap());
        assert!(answer.contains(rule) && answer.contains("The last save could not be read as a whole"), "{rule}: {answer}");
        assert!(answer.contains(&format!("<h1>{title}</h1>")) && answer.contains("id=\"page.content\""), "{rule}: the last good page is gone");
        let other = proof.get("/index.html");
        assert!(other.contains(rule), "{rule}");
        let answer = proof.after(PAGE, |manual| fs::write(manual.join(SOURCE), &good).unwrap());
        assert!(!answer.contains(rule) && !answer.contains("could not be read"), "{rule}");
    }
    let answer = proof.after(PAGE, |manual| fs::write(manual.join(SOURCE), [good.as_bytes(), b"\xff\xfe"].concat()).unwrap());
    assert!(answer.contains("text-not-utf8") && answer.contains(&format!("<h1>{title}</h1>")), "{answer}");
}

#[test]
fn a_folder_that_vanishes_is_told_and_followed_again_when_it_is_back() {
    let proof = Proof::start();
    let away = proof.manual.with_file_name("away");
    let answer = proof.until(PAGE, "no such folder", |manual| fs::rename(manual, &away).unwrap());
    assert!(answer.contains("id=\"page.content\""), "the last good page is gone");
    proof.until(PAGE, "0 errors", |manual| fs::rename(&away, manual).unwrap());
    let answer = proof.until(PAGE, "<h1>Again ", |manual| fs::write(manual.join(SOURCE), with(&manual.join(SOURCE), "title: ", "title: Again ")).unwrap());
    assert!(!answer.contains("could not be read"));
    // Removed for good and written anew, as a change of branches does.
    copy(&proof.manual, &away);
    proof.until(PAGE, "no such folder", |manual| fs::remove_dir_all(manual).unwrap());
    proof.until(PAGE, "0 errors", |manual| copy(&away, manual));
    proof.until(PAGE, "<h1>Once more ", |manual| fs::write(manual.join(SOURCE), with(&manual.join(SOURCE), "title: Again ", "title: Once more ")).unwrap());
}

#[test]
fn many_readers_come_and_go() {
    let proof = Proof::start();
    let state = proof.state(PAGE);
    for _ in 0..200 {
        let mut stream = TcpStream::connect(proof.at).unwrap();
        write!(stream, "GET /.proof/news/{state}/{PAGE} HTTP/1.1\r\nHost: {}\r\n\r\n", proof.at).unwrap();
    }
    // One that asks from an older state hears at once.
    proof.wait(PAGE, "0123456789abcdef");
    let answer = proof.after(PAGE, |manual| fs::write(manual.join(SOURCE), with(&manual.join(SOURCE), "title: ", "title: Still ")).unwrap());
    assert!(answer.contains("<h1>Still "));
}

fn refused(arguments: &[&str]) -> Output {
    let output = program(Path::new(env!("CARGO_MANIFEST_DIR"))).args(arguments).output().unwrap();
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    output
}

#[test]
fn a_taken_port_is_told_with_one_that_is_free() {
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port();
    let told = text(&refused(&["proof", "procedures", "--port", &port.to_string()]).stderr);
    assert!(told.contains(&format!("port {port} at 127.0.0.1 is taken")), "{told}");
    let free: u16 = told.trim().rsplit(' ').next().unwrap().parse().unwrap();
    assert!(free > port && TcpListener::bind(("127.0.0.1", free)).is_ok(), "{told}");
    let told = text(&refused(&["proof", "procedures", "--address", "192.0.2.1"]).stderr);
    assert!(told.contains("this machine has no address 192.0.2.1"), "{told}");
    let told = text(&refused(&["proof", "no-such-folder"]).stderr);
    assert!(told.contains("there is no such folder"), "{told}");
}

#[test]
#[cfg(unix)]
fn it_ends_cleanly_when_asked_to_even_while_pages_are_open() {
    for signal in ["-INT", "-TERM"] {
        let mut proof = Proof::start();
        let state = proof.state(PAGE);
        let mut open = TcpStream::connect(proof.at).unwrap();
        write!(open, "GET /.proof/news/{state}/{PAGE} HTTP/1.1\r\nHost: {}\r\n\r\n", proof.at).unwrap();
        assert!(Command::new("kill").args([signal, &proof.child.id().to_string()]).status().unwrap().success());
        assert_eq!(proof.child.wait().unwrap().code(), Some(0), "{signal}");
        assert!(TcpStream::connect(proof.at).is_err());
    }
}

/// The names in a folder that a proof has made.
fn made_in(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.to_string_lossy().contains("benchleaf-proof-")).collect()
}

#[test]
#[cfg(unix)]
fn ended_while_it_makes_its_first_pages_it_leaves_nothing() {
    let scratch = tempfile::tempdir().unwrap();
    copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures"), &scratch.path().join("manual"));
    let temporary = scratch.path().join("temporary");
    fs::create_dir(&temporary).unwrap();
    for signal in ["-INT", "-TERM"] {
        let mut child = program(scratch.path()).args(["proof", "manual", "--port", "0"]).env("TMPDIR", &temporary).stdout(Stdio::null()).spawn().unwrap();
        while made_in(&temporary).is_empty() {
            assert!(child.try_wait().unwrap().is_none(), "it ended by itself");
            std::thread::sleep(Duration::from_millis(1));
        }
        assert!(Command::new("kill").args([signal, &child.id().to_string()]).status().unwrap().success());
        assert_eq!(child.wait().unwrap().code(), Some(0), "{signal}");
        assert_eq!(made_in(&temporary), Vec::<PathBuf>::new(), "{signal}");
    }
    // One that had no time to clear up is cleared up after.
    let mut child = program(scratch.path()).args(["proof", "manual", "--port", "0"]).env("TMPDIR", &temporary).stdout(Stdio::piped()).spawn().unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    child.kill().unwrap();
    child.wait().unwrap();
    let left = made_in(&temporary);
    assert_eq!(left.len(), 1);
    let mut child = program(scratch.path()).args(["proof", "manual", "--port", "0"]).env("TMPDIR", &temporary).stdout(Stdio::piped()).spawn().unwrap();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    assert!(!left[0].exists() && made_in(&temporary).len() == 1);
    child.kill().unwrap();
    child.wait().unwrap();
}

/// What the system refuses for a moment is tried again without another save: here files, of which idle connections have taken all.
#[test]
#[cfg(unix)]
fn a_failure_that_passes_is_followed_by_the_page() {
    let proof = Proof::start_by(Command::new("sh").args(["-c", "ulimit -n 100; exec \"$0\" \"$@\"", env!("CARGO_BIN_EXE_benchleaf")]));
    let state = proof.state(PAGE);
    let mut news = TcpStream::connect(proof.at).unwrap();
    news.set_read_timeout(Some(PATIENCE)).unwrap();
    write!(news, "GET /.proof/news/{state}/{PAGE} HTTP/1.1\r\nHost: {}\r\n\r\n", proof.at).unwrap();
    let mut lines = BufReader::new(news).lines();
    assert!(lines.next().unwrap().unwrap().contains("200"));
    let idle: Vec<TcpStream> = (0..150).map(|_| TcpStream::connect(proof.at).unwrap()).collect();
    std::thread::sleep(Duration::from_millis(500));
    fs::write(proof.manual.join(SOURCE), with(&proof.manual.join(SOURCE), "title: ", "title: Again ")).unwrap();
    assert!(lines.any(|line| line.unwrap() == "event: changed"), "the connection ended without news");
    drop(idle);
    let begun = std::time::Instant::now();
    loop {
        let answer = proof.get(&format!("/{PAGE}"));
        if answer.contains("<h1>Again ") && !answer.contains("file-not-readable") {
            break;
        }
        assert!(begun.elapsed() < PATIENCE, "{answer}");
        std::thread::sleep(Duration::from_millis(300));
    }
}

/// A connection on which nothing is asked is not held for ever.
#[test]
fn a_connection_that_asks_nothing_is_closed() {
    let proof = Proof::start();
    for begun in [b"".as_slice(), b"GET / HTTP/1.1\r\nHost: "] {
        let mut idle = TcpStream::connect(proof.at).unwrap();
        idle.set_read_timeout(Some(PATIENCE)).unwrap();
        idle.write_all(begun).unwrap();
        let mut answer = Vec::new();
        // It ends; that it may end by a reset is no matter.
        let ended = idle.read_to_end(&mut answer);
        assert!(ended.map_err(|error| error.kind()).map_or_else(|kind| kind == std::io::ErrorKind::ConnectionReset, |_| true));
    }
}
