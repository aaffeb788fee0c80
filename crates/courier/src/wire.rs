//! The socket: HTTP/1.1 over TLS to exactly one certificate, as a blocking call.
//!
//! The certificate was seen at pairing and is known by its SHA-256. No authority, name or date is looked at beside it: the
//! office's certificate vouches for itself, and whoever shows another one is somebody else.

use std::fs::File;
use std::io::{Read as _, Seek as _, SeekFrom};
use std::sync::Arc;
use std::time::Duration;

use http_body_util::{BodyExt as _, Full, Limited};
use hyper::body::Bytes;
use hyper::client::conn::http1::{self, SendRequest};
use hyper::{Request, header};
use hyper_util::rt::TokioIo;
use survey::Digest;
use tokio::net::TcpStream;
use tokio::runtime::Runtime;
use tokio::time::timeout;
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::client::danger::{HandshakeSignatureValid, ServerCertVerified, ServerCertVerifier};
use tokio_rustls::rustls::crypto::{CryptoProvider, ring, verify_tls12_signature, verify_tls13_signature};
use tokio_rustls::rustls::pki_types::{CertificateDer, ServerName, UnixTime};
use tokio_rustls::rustls::{
    CertificateError, ClientConfig, DigitallySignedStruct, Error as TlsError, SignatureScheme,
};

use crate::talk::{MOST_PUBLISHED, PairAsk, Paired, Published, Said};
use crate::{Ask, Fingerprint, Heard, Next, Sending};

/// Until somebody answers the telephone, and until it is known who.
const CONNECT: Duration = Duration::from_secs(15);
/// For an answer; a piece of the smallest size takes as long on a line of 300 bytes a second.
const ANSWER: Duration = Duration::from_secs(120);
/// For being paired: a person waits beside it.
const PAIR: Duration = Duration::from_secs(20);
/// For a published catalog: nothing waits for it that could not do without.
const CATALOG: Duration = Duration::from_secs(60);
/// For the receipt: the office opens the whole packet first.
const RECEIPT: Duration = Duration::from_secs(15 * 60);
/// Most bytes of an answer: the list of what is missing.
const MOST_ANSWER: usize = 32 << 20;

/// Why there was no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WireError {
    /// Nobody is there, or the line broke.
    #[error("the office does not answer: {0}")]
    Line(String),
    /// Somebody else is there.
    #[error("another certificate was shown than the one seen at pairing")]
    Stranger,
}

/// A line to one office.
pub struct Line {
    address: String,
    name: ServerName<'static>,
    tls: Arc<ClientConfig>,
    token: Option<String>,
    language: &'static str,
    runtime: Runtime,
    open: Option<SendRequest<Full<Bytes>>>,
}

impl Line {
    /// A line to the office at this address, which will show this certificate; nothing is opened yet.
    ///
    /// # Errors
    /// An address that is none, or a system that gives no sockets.
    pub fn new(
        address: &str,
        fingerprint: Fingerprint,
        token: Option<String>,
        language: &'static str,
    ) -> Result<Self, WireError> {
        let fail = |e: &dyn std::fmt::Display| WireError::Line(e.to_string());
        let host = address.rsplit_once(':').map_or(address, |(host, _)| host);
        let bare = host.strip_prefix('[').and_then(|h| h.strip_suffix(']')).unwrap_or(host);
        let name = ServerName::try_from(bare.to_owned()).map_err(|e| fail(&e))?;
        let provider = Arc::new(ring::default_provider());
        let tls = ClientConfig::builder_with_provider(Arc::clone(&provider))
            .with_safe_default_protocol_versions()
            .map_err(|e| fail(&e))?
            .dangerous()
            .with_custom_certificate_verifier(Arc::new(Only { fingerprint, provider }))
            .with_no_client_auth();
        let runtime =
            tokio::runtime::Builder::new_current_thread().enable_all().build().map_err(|e| fail(&e))?;
        Ok(Self {
            address: address.to_owned(),
            name,
            tls: Arc::new(tls),
            token,
            language,
            runtime,
            open: None,
        })
    }

    /// Asks to be paired.
    ///
    /// # Errors
    /// No answer. What the office refuses with is in the inner result; an answer that is none counts as no answer.
    pub fn pair(&mut self, ask: &PairAsk) -> Result<Result<Paired, Said>, WireError> {
        let body = serde_json::to_vec(ask).map_err(|e| WireError::Line(e.to_string()))?;
        let request = Request::post("/device/pair").header(header::CONTENT_TYPE, "application/json");
        let (status, body) = self.ask(request, body, (PAIR, MOST_ANSWER))?;
        let strange = |e: serde_json::Error| WireError::Line(e.to_string());
        if status == 200 {
            return serde_json::from_slice(&body).map(Ok).map_err(strange);
        }
        serde_json::from_slice(&body).map(Err).map_err(strange)
    }

    /// Asks for the catalog the office published last; none where that is the one this device has.
    ///
    /// # Errors
    /// As [`Self::pair`].
    pub fn catalog(&mut self, have: Option<Digest>) -> Result<Result<Option<Published>, Said>, WireError> {
        let have = have.map(|have| format!("?have={have}")).unwrap_or_default();
        let request = Request::get(format!("/device/catalog{have}"));
        let (status, body) = self.ask(request, Vec::new(), (CATALOG, MOST_PUBLISHED))?;
        let strange = |e: serde_json::Error| WireError::Line(e.to_string());
        match status {
            204 => Ok(Ok(None)),
            200 => serde_json::from_slice(&body).map(|told| Ok(Some(told))).map_err(strange),
            _ => serde_json::from_slice(&body).map(Err).map_err(strange),
        }
    }

    /// Asks the next thing of a sending. `file` is the file its recipe was made of.
    ///
    /// # Errors
    /// No answer, or a file that cannot be read.
    pub fn carry(&mut self, sending: &Sending, ask: &Ask, file: &mut File) -> Result<Heard, CarryError> {
        let packet = sending.recipe().packet;
        let (request, body, within) = match ask {
            Ask::Begin => {
                let request = Request::put(format!("/device/packet/{packet}"));
                let request = request.header(header::CONTENT_TYPE, "application/json");
                (request, sending.recipe().json(), ANSWER)
            }
            Ask::Piece { segment, from, bytes, at } => {
                let mut piece = vec![0; usize::try_from(*bytes).unwrap_or_default()];
                file.seek(SeekFrom::Start(*at)).and_then(|_| file.read_exact(&mut piece))?;
                let range = format!("bytes {from}-{}/{}", from + bytes - 1, segment.bytes);
                let request = Request::put(format!("/device/packet/{packet}/segment/{}", segment.sha256));
                (request.header(header::CONTENT_RANGE, range), piece, ANSWER)
            }
            Ask::Finish => (Request::post(format!("/device/packet/{packet}")), Vec::new(), RECEIPT),
        };
        let (status, body) = self.ask(request, body, (within, MOST_ANSWER))?;
        Ok(Heard::Answer(status, body))
    }

    fn ask(
        &mut self,
        request: hyper::http::request::Builder,
        body: Vec<u8>,
        (within, most): (Duration, usize),
    ) -> Result<(u16, Vec<u8>), WireError> {
        let Self { address, name, tls, token, language, runtime, open } = self;
        let mut request =
            request.header(header::HOST, address.as_str()).header("x-underlath-language", *language);
        if let Some(token) = token {
            request = request.header(header::AUTHORIZATION, format!("Bearer {token}"));
        }
        let request =
            request.body(Full::new(Bytes::from(body))).map_err(|e| WireError::Line(e.to_string()))?;
        let kept = open.take().filter(|line| !line.is_closed());
        let asked = async {
            let mut line = match kept {
                Some(line) => line,
                None => timeout(CONNECT, connect(address, name, tls)).await.map_err(late)??,
            };
            let answer = timeout(within, whole(&mut line, request, most)).await.map_err(late)??;
            Ok((line, answer))
        };
        let (line, answer) = runtime.block_on(asked)?;
        *open = Some(line);
        Ok(answer)
    }
}

/// Why nothing was carried.
#[derive(Debug, thiserror::Error)]
pub enum CarryError {
    /// No answer.
    #[error(transparent)]
    Wire(#[from] WireError),
    /// The file.
    #[error(transparent)]
    File(#[from] std::io::Error),
}

/// Carries on until it is over or `go_on` says no; `told` is called after every step. Returns once
/// [`Sending::next`] is over, or where it was told to stop.
///
/// # Errors
/// A stranger at the other end, or a file that cannot be read: nothing that waiting would mend.
pub fn carry(
    line: &mut Line,
    sending: &mut Sending,
    file: &mut File,
    go_on: &mut dyn FnMut(&Sending, Option<Duration>) -> bool,
) -> Result<(), CarryError> {
    loop {
        match sending.next() {
            Next::Over(_) => return Ok(()),
            Next::Wait(pause) => {
                if !go_on(sending, Some(pause)) {
                    return Ok(());
                }
                sending.waited();
            }
            Next::Ask(ask) => {
                let heard = match line.carry(sending, &ask, file) {
                    Ok(heard) => heard,
                    Err(CarryError::Wire(WireError::Line(_))) => Heard::Nothing,
                    Err(other) => return Err(other),
                };
                sending.heard(heard);
                if !go_on(sending, None) {
                    return Ok(());
                }
            }
        }
    }
}

fn late(_: tokio::time::error::Elapsed) -> WireError {
    WireError::Line(std::io::Error::from(std::io::ErrorKind::TimedOut).to_string())
}

async fn connect(
    address: &str,
    name: &ServerName<'static>,
    tls: &Arc<ClientConfig>,
) -> Result<SendRequest<Full<Bytes>>, WireError> {
    let broken = |e: &dyn std::fmt::Display| WireError::Line(e.to_string());
    let socket = TcpStream::connect(address).await.map_err(|e| broken(&e))?;
    socket.set_nodelay(true).map_err(|e| broken(&e))?;
    let stream = TlsConnector::from(Arc::clone(tls)).connect(name.clone(), socket).await.map_err(|e| {
        let tls = e.get_ref().and_then(|inner| inner.downcast_ref::<TlsError>());
        match tls {
            Some(TlsError::InvalidCertificate(_)) => WireError::Stranger,
            _ => broken(&e),
        }
    })?;
    let (line, served) = http1::handshake(TokioIo::new(stream)).await.map_err(|e| broken(&e))?;
    // Polled whenever something is asked; what goes wrong there is told to whoever asks.
    tokio::spawn(async move {
        let _ = served.await;
    });
    Ok(line)
}

async fn whole(
    line: &mut SendRequest<Full<Bytes>>,
    request: Request<Full<Bytes>>,
    most: usize,
) -> Result<(u16, Vec<u8>), WireError> {
    let broken = |e: &dyn std::fmt::Display| WireError::Line(e.to_string());
    line.ready().await.map_err(|e| broken(&e))?;
    let answer = line.send_request(request).await.map_err(|e| broken(&e))?;
    let status = answer.status().as_u16();
    let body = Limited::new(answer.into_body(), most).collect().await.map_err(|e| broken(&e))?;
    Ok((status, body.to_bytes().to_vec()))
}

/// Takes the one certificate.
#[derive(Debug)]
struct Only {
    fingerprint: Fingerprint,
    provider: Arc<CryptoProvider>,
}

impl ServerCertVerifier for Only {
    fn verify_server_cert(
        &self,
        end_entity: &CertificateDer<'_>,
        _: &[CertificateDer<'_>],
        _: &ServerName<'_>,
        _: &[u8],
        _: UnixTime,
    ) -> Result<ServerCertVerified, TlsError> {
        if Fingerprint::of(end_entity) == self.fingerprint {
            return Ok(ServerCertVerified::assertion());
        }
        Err(TlsError::InvalidCertificate(CertificateError::ApplicationVerificationFailure))
    }
    // Showing a certificate proves nothing: the handshake must be signed by its key.
    fn verify_tls12_signature(
        &self,
        message: &[u8],
        cert: &CertificateDer<'_>,
        signed: &DigitallySignedStruct,
    ) -> Result<HandshakeSignatureValid, TlsError> {
        verify_tls12_signature(message, cert, signed, &self.provider.signature_verification_algorithms)
    }
    fn verify_tls13_signature(
        &self,
        message: &[u8],
        cert: &CertificateDer<'_>,
        signed: &DigitallySignedStruct,
    ) -> Result<HandshakeSignatureValid, TlsError> {
        verify_tls13_signature(message, cert, signed, &self.provider.signature_verification_algorithms)
    }
    fn supported_verify_schemes(&self) -> Vec<SignatureScheme> {
        self.provider.signature_verification_algorithms.supported_schemes()
    }
}
