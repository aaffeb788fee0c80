//! What is kept of packets that were received and of findings that were entered.
//!
//! Both only grow: nothing that was added is changed, replaced or removed. They share one count of arrivals, 1, 2, 3, so
//! that what came before what is told without a clock. The place in it is given here, inside the write: the one after the
//! highest of both. Whoever adds without [`Repo::begin`](super::Repo::begin) may be refused where two do at once; two never
//! get one place.

use review::Finding;
use survey::{DeviceId, Digest, Stamp, SurveyId};

use crate::OfficeError;

/// A packet that was received, without its forecast.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Received {
    /// SHA-256 of the packet file.
    pub digest: Digest,
    /// The house.
    pub survey: SurveyId,
    /// The device that sealed it.
    pub device: DeviceId,
    /// Number of the packet: the device's own count for this house.
    pub number: u32,
    /// Label of the house.
    pub label: String,
    /// When it was sealed.
    pub sealed_at: Stamp,
    /// When it was received.
    pub received_at: Stamp,
    /// Its place in the count of arrivals.
    pub position: u64,
    /// Length of the file.
    pub bytes: u64,
    /// False when nobody vouched for the key that sealed it.
    pub vouched: bool,
    /// True when its log declares demolition.
    pub after_demolition: bool,
}

/// A finding that was entered.
#[derive(Clone, Debug, PartialEq)]
pub struct Entered {
    /// Which of its house it is, from 1.
    pub n: u64,
    /// Its place in the count of arrivals.
    pub position: u64,
    /// What was entered.
    pub finding: Finding,
}

/// Packets. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait PacketRows {
    /// Adds one with the bytes of its forecast; its place in the count is the next one, whatever it holds, and is given back.
    /// No two share a digest, nor house, device and number.
    fn add_packet(&mut self, packet: &Received, forecast: &[u8]) -> Result<u64, OfficeError>;
    /// All, in the order they came.
    fn packets(&self) -> Result<Vec<Received>, OfficeError>;
    /// Those of a house, in the order they came.
    fn packets_of(&self, survey: SurveyId) -> Result<Vec<Received>, OfficeError>;
    /// A packet by its digest.
    fn packet(&self, digest: Digest) -> Result<Option<Received>, OfficeError>;
    /// A packet by what its device called it.
    fn packet_numbered(
        &self,
        survey: SurveyId,
        device: DeviceId,
        number: u32,
    ) -> Result<Option<Received>, OfficeError>;
    /// The bytes of a packet's forecast, as they were added.
    fn forecast(&self, digest: Digest) -> Result<Option<Vec<u8>>, OfficeError>;
}

/// Findings. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait FindingRows {
    /// Adds one about a house; which of the house it is, is given back.
    fn add_finding(&mut self, survey: SurveyId, finding: &Finding) -> Result<u64, OfficeError>;
    /// Those of a house, in the order they were entered.
    fn findings(&self, survey: SurveyId) -> Result<Vec<Entered>, OfficeError>;
    /// The lowest place in the count that a finding of a house has, or a packet of it whose log declares demolition. Read at
    /// one moment: nothing comes between the one and the other.
    fn demolition_began(&self, survey: SurveyId) -> Result<Option<u64>, OfficeError>;
}
