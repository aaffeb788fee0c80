//! What is answered where: `GET /enter/TOKEN`, `POST /ask/COMMAND`, `POST /photo`, `POST /pair-photo`, `GET /picture/DIGEST`,
//! `GET /thumbnail/DIGEST`, and the files of the screens.

use std::net::SocketAddr;
use std::sync::Arc;

use axum::Router;
use axum::body::Bytes;
use axum::extract::rejection::{BytesRejection, QueryRejection};
use axum::extract::{DefaultBodyLimit, Path, Query, Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, Uri, header};
use axum::middleware::{Next, from_fn_with_state};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post};
use serde::Deserialize;
use serde_json::Value;
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::{DefaultPredicate, NotForContentType, Predicate as _};

use web::{HEADERS, language};

use crate::guard::Guard;
use crate::{Answers, PhotoTaken, Refusal, Screens, Secrets, Why};

/// Most bytes of a command: answers are short.
pub const MOST_JSON: usize = 256 * 1024;
/// Most bytes of a photograph.
pub const MOST_PHOTO: usize = 64 * 1024 * 1024;

/// The page of this door.
const PAGE: &str = "index.html";

struct Inside {
    guard: Guard,
    answers: Arc<dyn Answers>,
    screens: Screens,
}

type Room = State<Arc<Inside>>;

pub(crate) fn router(
    at: SocketAddr,
    secrets: Secrets,
    answers: Arc<dyn Answers>,
    screens: Screens,
) -> Router {
    let inside = Arc::new(Inside { guard: Guard::new(at, secrets), answers, screens });
    // Only the files of the screens are packed: an answer is short, and waits for nothing. Faces are packed as they are.
    let packed = DefaultPredicate::new().and(NotForContentType::const_new("font/"));
    Router::new()
        .route("/ask/{command}", post(ask).layer(DefaultBodyLimit::max(MOST_JSON)))
        .route("/photo", post(photo).layer(DefaultBodyLimit::max(MOST_PHOTO)))
        .route("/pair-photo", post(pair_photo).layer(DefaultBodyLimit::max(MOST_PHOTO)))
        .route("/picture/{digest}", get(picture))
        .route("/thumbnail/{digest}", get(thumbnail))
        .fallback(get(screen).layer(CompressionLayer::new().compress_when(packed)))
        // Everything above is for who is known; the way in is not.
        .layer(from_fn_with_state(Arc::clone(&inside), known))
        .route("/enter/{token}", get(enter))
        .layer(from_fn_with_state(Arc::clone(&inside), from_here))
        .with_state(inside)
}

/// Holds every request against where it comes from, and puts on every answer what a browser may do with it.
async fn from_here(State(inside): Room, request: Request, next: Next) -> Response {
    let mut response = match inside.guard.comes_from_here(request.method(), request.headers()) {
        Ok(()) => next.run(request).await,
        Err(why) => inside.no(&language(request.headers()), why),
    };
    for (name, value) in HEADERS {
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response
}

async fn known(State(inside): Room, request: Request, next: Next) -> Response {
    match inside.guard.is_known(request.headers()) {
        Ok(()) => next.run(request).await,
        Err(why) => inside.no(&language(request.headers()), why),
    }
}

/// The token of the printed address is taken for the cookie, and the address replaced, so that it stands in no history
/// and no bookmark.
async fn enter(State(inside): Room, Path(token): Path<String>, headers: HeaderMap) -> Response {
    match inside.guard.enter(&token) {
        Ok(cookie) => {
            let sent = [(header::LOCATION, "/".to_owned()), (header::SET_COOKIE, cookie)];
            (StatusCode::SEE_OTHER, sent).into_response()
        }
        Err(why) => inside.no(&language(&headers), why),
    }
}

async fn screen(State(inside): Room, uri: Uri, headers: HeaderMap) -> Response {
    match inside.screens.file(uri.path(), PAGE) {
        Some((media, bytes)) => ([(header::CONTENT_TYPE, media)], bytes).into_response(),
        None => inside.no(&language(&headers), Why::Page),
    }
}

async fn ask(
    State(inside): Room,
    Path(command): Path<String>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Response {
    let language = language(&headers);
    let body = match body {
        Ok(body) => body,
        Err(e) => return inside.no(&language, unread(&e, MOST_JSON)),
    };
    // Only a script of the same page can send this type without asking first.
    let said = headers.get(header::CONTENT_TYPE).is_some_and(|t| t == "application/json");
    let Some(args) = said.then(|| serde_json::from_slice::<Value>(&body).ok()).flatten() else {
        return inside.no(&language, Why::Json);
    };
    beside(inside, language, move |inside, language| {
        let answer = inside.answers.ask(language, &command, args)?;
        Ok(json(&answer))
    })
    .await
}

fn json(answer: &Value) -> Response {
    ([(header::CONTENT_TYPE, "application/json")], answer.to_string()).into_response()
}

/// What a photograph says beside its bytes.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Beside {
    survey: String,
    key: Option<String>,
    name: String,
}

/// A photograph: its bytes are the body; the house, what it shows and its name stand in the query.
async fn photo(
    State(inside): Room,
    query: Result<Query<Beside>, QueryRejection>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Response {
    let language = language(&headers);
    let body = match body {
        Ok(body) => body,
        Err(e) => return inside.no(&language, unread(&e, MOST_PHOTO)),
    };
    let Ok(Query(Beside { survey, key, name })) = query else {
        return inside.no(&language, Why::PhotoWithout);
    };
    beside(inside, language, move |inside, language| {
        let taken = PhotoTaken { survey: &survey, key: key.as_deref(), name: &name, bytes: &body };
        let answer = inside.answers.take_photo(language, &taken)?;
        Ok(json(&answer))
    })
    .await
}

/// A photograph of the office's code: its bytes are the body.
async fn pair_photo(
    State(inside): Room,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Response {
    let language = language(&headers);
    let body = match body {
        Ok(body) => body,
        Err(e) => return inside.no(&language, unread(&e, MOST_PHOTO)),
    };
    beside(inside, language, move |inside, language| {
        let answer = inside.answers.pair_photo(language, &body)?;
        Ok(json(&answer))
    })
    .await
}

async fn picture(State(inside): Room, Path(digest): Path<String>, headers: HeaderMap) -> Response {
    beside(inside, language(&headers), move |inside, language| {
        Ok(jpeg(inside.answers.picture(language, &digest)?))
    })
    .await
}

async fn thumbnail(State(inside): Room, Path(digest): Path<String>, headers: HeaderMap) -> Response {
    beside(inside, language(&headers), move |inside, language| {
        Ok(jpeg(inside.answers.thumbnail(language, &digest)?))
    })
    .await
}

fn jpeg(bytes: Vec<u8>) -> Response {
    ([(header::CONTENT_TYPE, "image/jpeg")], bytes).into_response()
}

/// Runs what waits for the disk beside the connections.
async fn beside(
    inside: Arc<Inside>,
    language: String,
    work: impl FnOnce(&Inside, &str) -> Result<Response, Refusal> + Send + 'static,
) -> Response {
    let (there, said_in) = (Arc::clone(&inside), language.clone());
    let ended = tokio::task::spawn_blocking(move || work(&there, &said_in)).await;
    match ended {
        Ok(Ok(response)) => response,
        Ok(Err(refusal)) => refused(refusal.status(), &refusal),
        Err(_) => inside.no(&language, Why::Ended),
    }
}

impl Inside {
    /// A refusal of the door itself.
    fn no(&self, language: &str, why: Why) -> Response {
        refused(why.status(), &self.answers.say(language, why))
    }
}

impl Why {
    const fn status(self) -> StatusCode {
        match self {
            Self::Host | Self::Origin | Self::Token => StatusCode::FORBIDDEN,
            Self::Cookie => StatusCode::UNAUTHORIZED,
            Self::Page => StatusCode::NOT_FOUND,
            Self::Json | Self::PhotoWithout | Self::Unread => StatusCode::BAD_REQUEST,
            Self::TooLarge { .. } => StatusCode::PAYLOAD_TOO_LARGE,
            Self::Ended => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
}

fn refused(status: StatusCode, refusal: &Refusal) -> Response {
    (status, [(header::CONTENT_TYPE, "application/json")], refusal.body()).into_response()
}

fn unread(rejection: &BytesRejection, most: usize) -> Why {
    match rejection.status() {
        StatusCode::PAYLOAD_TOO_LARGE => Why::TooLarge { most },
        _ => Why::Unread,
    }
}
