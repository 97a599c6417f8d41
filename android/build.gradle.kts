// The installable app: the same sources as pom.xml, with the core built for phones.
//
// Once: Android SDK with NDK r28 or newer, `cargo install cargo-ndk`, and
//   rustup target add aarch64-linux-android armv7-linux-androideabi x86_64-linux-android
// Then: `cargo build --profile ci -p kerfbook-ffi` (the surface is read from this computer's library), and
//   gradle assembleRelease
plugins {
    id("com.android.application") version "8.9.1"
    id("org.jetbrains.kotlin.android") version "2.4.21"
}

val root = rootDir.parentFile
val generated = layout.buildDirectory.dir("generated/core").get().asFile
val libraries = layout.buildDirectory.dir("jniLibs").get().asFile

android {
    namespace = "kerfbook.field"
    compileSdk = 35
    defaultConfig {
        applicationId = "kerfbook.field"
        minSdk = 26
        targetSdk = 35
        versionCode = 1
        versionName = "0.1.0"
    }
    buildTypes {
        release {
            isMinifyEnabled = true
            proguardFiles(getDefaultProguardFile("proguard-android-optimize.txt"), "keep.pro")
        }
    }
    sourceSets["main"].apply {
        java.srcDirs("src/main/kotlin", "$generated/kotlin")
        res.srcDirs("src/main/res", "$generated/res")
        jniLibs.srcDirs(libraries)
    }
    compileOptions {
        sourceCompatibility = JavaVersion.VERSION_1_8
        targetCompatibility = JavaVersion.VERSION_1_8
    }
    kotlinOptions { jvmTarget = "1.8" }
    // Pages of 16 KB: libraries stay uncompressed and aligned in the package.
    packaging { jniLibs { useLegacyPackaging = false } }
}

dependencies {
    implementation("net.java.dev.jna:jna:5.18.1@aar")
}

val surface by tasks.registering(Exec::class) {
    workingDir = root
    commandLine("android/tools/surface", generated.path, "$root/target/ci")
}

// NDK r28 aligns to 16 KB by itself; the flag is for older ones. Every LOAD line of `readelf -lW` must end in 0x4000.
val core by tasks.registering(Exec::class) {
    workingDir = root
    environment("RUSTFLAGS", "-C link-arg=-Wl,-z,max-page-size=16384")
    commandLine(
        "cargo", "ndk", "-t", "arm64-v8a", "-t", "armeabi-v7a", "-t", "x86_64", "--platform", "26",
        "-o", libraries.path, "build", "--locked", "--profile", "phone", "-p", "kerfbook-ffi",
    )
}

tasks.named("preBuild") { dependsOn(surface, core) }
