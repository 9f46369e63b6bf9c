//! Whom a request is meant for, and what it asks for.

use axum::http::uri::Authority;
use axum::http::{HeaderMap, Uri, header};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, percent_decode_str};
use std::net::IpAddr;

/// What is written with `%` in a path: everything but letters, digits and these.
pub(super) const IN_PATH: &AsciiSet = &NON_ALPHANUMERIC.remove(b'/').remove(b'-').remove(b'_').remove(b'.').remove(b'~');

/// Where the server answers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Door {
    pub(super) address: IpAddr,
    pub(super) port: u16,
}

/// Why a request is not for this server.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stray {
    /// It does not say, or says twice, or nothing that can be read.
    Unclear,
    /// It is meant for another.
    Other,
}

impl Door {
    /// Looks whether a request names this server, in its `Host` and, where it has one, in its target.
    ///
    /// A page of another site can make a browser ask this server by a name that its own name server turns into this
    /// machine's address (DNS rebinding). Such a request names that name. So no name is taken but `localhost`, and
    /// addresses; and on this machine's own door only this machine's own addresses.
    pub(super) fn check(self, uri: &Uri, headers: &HeaderMap) -> Result<(), Stray> {
        let mut hosts = headers.get_all(header::HOST).iter();
        let (Some(host), None) = (hosts.next(), hosts.next()) else { return Err(Stray::Unclear) };
        let host: Authority = host.to_str().ok().and_then(|host| host.parse().ok()).ok_or(Stray::Unclear)?;
        let target = uri.authority();
        if self.is_ours(&host) && target.is_none_or(|target| self.is_ours(target)) { Ok(()) } else { Err(Stray::Other) }
    }

    fn is_ours(self, named: &Authority) -> bool {
        if named.as_str().contains('@') || named.port_u16().unwrap_or(80) != self.port {
            return false;
        }
        let name = named.host();
        if name.eq_ignore_ascii_case("localhost") {
            return true;
        }
        let literal = name.strip_prefix('[').and_then(|name| name.strip_suffix(']')).unwrap_or(name);
        match literal.parse::<IpAddr>() {
            Ok(address) if self.address.is_loopback() => address.is_loopback(),
            Ok(_) => true,
            Err(_) => false,
        }
    }
}

/// The path in the site that a request asks for; none where it can't be the path of a file of ours. What this gives is
/// only ever looked up among the files in memory, so a way out of them does not exist; this refuses early and plainly.
pub(super) fn asked(uri: &Uri) -> Option<String> {
    let path = uri.path().strip_prefix('/')?;
    let path = percent_decode_str(path).decode_utf8().ok()?;
    let sound = path.split('/').all(|part| part != ".." && part != ".") && !path.chars().any(|c| c.is_control() || c == '\\');
    let path = if path.is_empty() || path.ends_with('/') { format!("{path}index.html") } else { path.into_owned() };
    sound.then_some(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(address: &str, hosts: &[&str], target: &str) -> Result<(), Stray> {
        let mut headers = HeaderMap::new();
        for host in hosts {
            headers.append(header::HOST, host.parse().unwrap());
        }
        Door { address: address.parse().unwrap(), port: 7420 }.check(&target.parse().unwrap(), &headers)
    }

    #[test]
    fn only_this_machine_is_this_machine() {
        for host in ["127.0.0.1:7420", "localhost:7420", "LOCALHOST:7420", "[::1]:7420", "127.0.0.2:7420"] {
            assert_eq!(check("127.0.0.1", &[host], "/"), Ok(()), "{host}");
        }
        for host in [
            "127.0.0.1", "127.0.0.1:80", "127.0.0.1:7421", "rebound.example:7420", "localhost.rebound.example:7420", "192.0.2.7:7420",
            "a@127.0.0.1:7420", "0.0.0.0:7420", "localhost.:7420",
        ] {
            assert_eq!(check("127.0.0.1", &[host], "/"), Err(Stray::Other), "{host}");
        }
        assert_eq!(check("127.0.0.1", &["127.0.0.1:7420"], "http://rebound.example:7420/"), Err(Stray::Other));
        assert_eq!(check("127.0.0.1", &["127.0.0.1:7420"], "http://127.0.0.1:7420/"), Ok(()));
        assert_eq!(check("127.0.0.1", &[], "/"), Err(Stray::Unclear));
        assert_eq!(check("127.0.0.1", &["127.0.0.1:7420", "127.0.0.1:7420"], "/"), Err(Stray::Unclear));
    }

    #[test]
    fn in_a_network_any_address_will_do_and_no_name() {
        assert_eq!(check("0.0.0.0", &["192.0.2.7:7420"], "/"), Ok(()));
        assert_eq!(check("0.0.0.0", &["bench.example:7420"], "/"), Err(Stray::Other));
    }

    #[test]
    fn a_path_is_one_of_the_site_or_none() {
        let asked = |path: &str| asked(&path.parse().unwrap());
        assert_eq!(asked("/").as_deref(), Some("index.html"));
        assert_eq!(asked("/tarn-18/").as_deref(), Some("tarn-18/index.html"));
        assert_eq!(asked("/tarn%2D18/a.html?x=1").as_deref(), Some("tarn-18/a.html"));
        for path in ["/../x", "/a/%2e%2e/x", "/a/%2E./x", "/a%00.html", "/a%5c..%5cx", "/%ff", "/a/./b", "/a%0d%0ab", "/%2e%2e%2fx"] {
            assert_eq!(asked(path), None, "{path}");
        }
    }
}
