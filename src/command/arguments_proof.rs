//! What may be typed behind `proof`.

use clap::Args;
use std::net::IpAddr;
use std::path::PathBuf;

/// Options of `proof`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchleaf proof\n  benchleaf proof procedures --port 7500")]
pub struct ProofOptions {
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    pub manual: Option<PathBuf>,
    /// The port to answer on; 0 takes any that is free
    #[arg(long, value_name = "NUMBER", default_value_t = 7420)]
    pub port: u16,
    /// The address to answer on. Any other than this machine's own shows the manual to the network
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1")]
    pub address: IpAddr,
    /// How many threads may work [default: one for each processor]
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub threads: Option<u16>,
}
