//! The site as a whole: its files, their links, the same bytes every time.
mod page_sample;

use page_sample::sample;

#[test]
fn the_same_files_come_out_with_one_thread_and_with_many() {
    let mut sample = sample();
    let one = sample.publish().unwrap();
    sample.threads = 4;
    assert_eq!(one, sample.publish().unwrap());
    assert!(one.windows(2).all(|pair| pair[0].path < pair[1].path));
}

/// For looking at: `BENCHLEAF_LOOK=folder cargo test --test page_site -- --ignored look`.
#[test]
#[ignore = "writes the sample's site into a folder for a person to look at"]
fn look() {
    let folder = std::path::PathBuf::from(std::env::var("BENCHLEAF_LOOK").unwrap());
    let mut sample = sample();
    sample.proof_copy = std::env::var("BENCHLEAF_PROOF").is_ok();
    for file in sample.publish().unwrap() {
        let path = folder.join(&file.path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, file.bytes).unwrap();
    }
}
