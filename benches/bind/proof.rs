//! The proof server: from a saved file to the page that shows it.

use crate::{Result, append};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// The page is saved and looked at so often.
const SAVES: usize = 20;
/// No save of a manual takes as long.
const PATIENCE: Duration = Duration::from_secs(120);

struct Server {
    child: Child,
    at: SocketAddr,
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may have ended by itself; there is nothing else to be done.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Seconds from saving a procedure to having read its new page to the end, as an open page does it: it is told, and asks again.
pub(crate) fn median_refresh(mut program: Command, manual: &Path, procedure: &Path) -> Result<f64> {
    let server = Server::start(program.args(["proof", "--port", "0"]).arg(manual))?;
    let page = procedure.strip_prefix(manual)?.with_extension("html").to_string_lossy().into_owned();
    let mut times = Vec::new();
    for number in 0..SAVES {
        let words = format!("Saved for the time number {number}.");
        let shown = server.get(&page)?;
        let state = shown.split_once("data-state=\"").and_then(|(_, rest)| rest.split('"').next()).ok_or("the page tells no state")?;
        let mut news = server.open(&format!(".proof/news/{state}/{page}"))?.lines();
        // The first line comes at once: it follows.
        news.next().ok_or("no news")??;
        let start = Instant::now();
        append(procedure, &format!("\n{words}\n"))?;
        loop {
            if news.next().ok_or("the news ended")?? == "event: changed" {
                break;
            }
        }
        let shown = server.get(&page)?;
        times.push(start.elapsed().as_secs_f64());
        if !shown.contains(&words) {
            return Err("the page was told to be new, and is not".into());
        }
    }
    times.sort_by(f64::total_cmp);
    times.get(SAVES / 2).copied().ok_or_else(|| "nothing was saved".into())
}

impl Server {
    fn start(command: &mut Command) -> Result<Self> {
        let mut child = command.current_dir(std::env::temp_dir()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn()?;
        let mut line = String::new();
        BufReader::new(child.stdout.take().ok_or("no output")?).read_line(&mut line)?;
        let at = line.trim().strip_prefix("http://").and_then(|rest| rest.strip_suffix('/')).ok_or_else(|| format!("no address: {line}"))?;
        Ok(Self { at: at.parse()?, child })
    }

    fn open(&self, target: &str) -> Result<BufReader<TcpStream>> {
        let mut stream = TcpStream::connect(self.at)?;
        stream.set_read_timeout(Some(PATIENCE))?;
        write!(stream, "GET /{target} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\r\n", self.at)?;
        Ok(BufReader::new(stream))
    }

    fn get(&self, target: &str) -> Result<String> {
        let mut answer = Vec::new();
        self.open(target)?.read_to_end(&mut answer)?;
        Ok(String::from_utf8_lossy(&answer).into_owned())
    }
}
