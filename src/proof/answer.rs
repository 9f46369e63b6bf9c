//! What the server answers to a request.

use super::address::{Door, Stray, asked};
use super::news;
use super::shelf::{OWN, Shelf};
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse, Response};
use std::path::Path;

/// What the server knows.
#[derive(Clone, Debug)]
pub(super) struct House {
    pub(super) door: Door,
    pub(super) shelf: Shelf,
}

/// Sent with every answer. Nothing from elsewhere, nothing written into a page, no worker, in no other site's frame, and
/// nothing of it kept anywhere.
const ALWAYS: [(HeaderName, &str); 7] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; \
         worker-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::CACHE_CONTROL, "no-store"),
    (header::REFERRER_POLICY, "no-referrer"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
];

/// Answers one request.
pub(super) async fn answer(State(house): State<House>, request: Request) -> Response {
    let mut response = of(&house, &request);
    let headers = response.headers_mut();
    for (name, value) in ALWAYS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    response
}

fn of(house: &House, request: &Request) -> Response {
    match house.door.check(request.uri(), request.headers()) {
        Ok(()) => {}
        Err(Stray::Unclear) => return plain(StatusCode::BAD_REQUEST, "The request does not say whom it is meant for.\n"),
        Err(Stray::Other) => return plain(StatusCode::MISDIRECTED_REQUEST, "This proof answers to this machine's own address only.\n"),
    }
    if request.method() != Method::GET && request.method() != Method::HEAD {
        let mut response = plain(StatusCode::METHOD_NOT_ALLOWED, "A proof can only be read.\n");
        response.headers_mut().insert(header::ALLOW, HeaderValue::from_static("GET, HEAD"));
        return response;
    }
    if is_from_elsewhere(request.headers()) {
        return plain(StatusCode::FORBIDDEN, "Another site may not read this proof.\n");
    }
    let Some(path) = asked(request.uri()) else {
        return plain(StatusCode::BAD_REQUEST, "There can be no such path.\n");
    };
    if let Some((state, page)) = path.strip_prefix(OWN).and_then(|own| own.strip_prefix("news/")).and_then(|rest| rest.split_once('/')) {
        if request.method() == Method::HEAD {
            return typed(StatusCode::OK, "text/event-stream", Body::empty());
        }
        return news::of(&house.shelf, page.to_owned(), state.to_owned()).into_response();
    }
    let copy = house.shelf.now();
    match copy.file(&path) {
        Some(bytes) => typed(StatusCode::OK, kind(&path), Body::from(bytes)),
        None => typed(StatusCode::NOT_FOUND, kind(".html"), Body::from(copy.absent(&path))),
    }
}

/// Whether a browser says that a page of another site asks. Following a link to a page is fine.
fn is_from_elsewhere(headers: &HeaderMap) -> bool {
    let said = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    let elsewhere = said("sec-fetch-site").is_some_and(|site| site == "cross-site" || site == "same-site");
    elsewhere && said("sec-fetch-mode") != Some("navigate")
}

fn plain(status: StatusCode, words: &'static str) -> Response {
    typed(status, "text/plain; charset=utf-8", Body::from(words))
}

fn typed(status: StatusCode, kind: &'static str, body: Body) -> Response {
    (status, [(header::CONTENT_TYPE, kind)], body).into_response()
}

/// The media type by the ending, as IANA registers them.
fn kind(path: &str) -> &'static str {
    match Path::new(path).extension().and_then(|ending| ending.to_str()).unwrap_or("html") {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "jpg" | "jpeg" => "image/jpeg",
        "png" => "image/png",
        "webp" => "image/webp",
        "vtt" => "text/vtt; charset=utf-8",
        "xml" => "application/xml",
        "txt" => "text/plain; charset=utf-8",
        "woff2" => "font/woff2",
        _ => "application/octet-stream",
    }
}
