// The installable app. Tests and checks run with Maven (pom.xml), which needs no part of Android's own tools.
pluginManagement {
    repositories {
        google()
        mavenCentral()
    }
}
dependencyResolutionManagement {
    repositories {
        google()
        mavenCentral()
    }
}
rootProject.name = "kerfbook-android"
