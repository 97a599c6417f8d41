//! The generator of the core's surface in Kotlin, Swift and Python.

fn main() {
    uniffi::uniffi_bindgen_main();
}
