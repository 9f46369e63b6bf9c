//! Telling an open page that it has changed: server-sent events, as the HTML standard has them.

use super::shelf::Shelf;
use axum::response::Sse;
use axum::response::sse::{Event, KeepAlive};
use futures_util::Stream;
use futures_util::stream::unfold;
use std::convert::Infallible;
use std::time::Duration;

/// A silent line this often keeps the connection, and shows that the browser has gone.
const SIGN_OF_LIFE: Duration = Duration::from_secs(15);

/// An event `changed` with the new state whenever `page` is no longer as in `state`; at once if it is not by now.
pub(super) fn of(shelf: &Shelf, page: String, state: String) -> Sse<impl Stream<Item = Result<Event, Infallible>> + use<>> {
    let changes = unfold((shelf.follow(), page, state), |(mut copies, page, state)| async move {
        loop {
            let now = copies.borrow_and_update().state(&page);
            if now != state {
                let event = Event::default().event("changed").data(&now);
                return Some((Ok(event), (copies, page, now)));
            }
            if copies.changed().await.is_err() {
                return None;
            }
        }
    });
    Sse::new(changes).keep_alive(KeepAlive::new().interval(SIGN_OF_LIFE))
}
