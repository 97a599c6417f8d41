package kerfbook.field.presenter

import kerfbook.core.ContainersGiven
import kerfbook.core.ContainersView
import kerfbook.core.PersonLine

/** What a person set on this phone. What is empty goes by the phone. */
data class Settings(
    val language: String = "",
    val units: String = "",
    val person: String = "",
    /** What containers hold, as it was typed and as the core read it. */
    val typed: Map<String, String> = emptyMap(),
    val holds: ContainersView = ContainersView(null, null, null),
)

data class SettingsState(
    val settings: Settings,
    val draft: Map<String, String>,
    val people: List<PersonLine> = emptyList(),
    val wrong: Map<String, String> = emptyMap(),
    val busy: Boolean = false,
)

/** Who writes, in which language and units, with which containers. Choices hold at once, what is typed when saved. */
class SettingsPresenter(private val settings: Settings) : Presenter<SettingsState> {
    override fun start(draft: Map<String, String>) =
        Step(SettingsState(settings, settings.typed + draft), Effect.Ask(Call.People))

    override fun next(state: SettingsState, event: Event): Step<SettingsState> = when (event) {
        is Event.PeopleCame -> Step(state.copy(people = event.people))
        is Event.Typed -> Step(state.copy(draft = state.draft + (event.field to event.text), wrong = state.wrong - event.field))
        is Event.Chosen -> set(
            state,
            when (event.field) {
                "language" -> state.settings.copy(language = event.value)
                // What was typed was typed in the other units.
                "units" -> state.settings.copy(units = event.value, typed = emptyMap(), holds = Settings().holds)
                else -> state.settings.copy(person = event.value)
            },
        )
        is Event.Pressed -> pressed(state, event.what)
        is Event.Named -> kept(state.copy(draft = state.draft - "name"), state.settings.copy(person = event.person))
        is Event.ContainersRead -> {
            val typed = CONTAINERS.associateWith { state.draft.at(it) }.filterValues { it.isNotEmpty() }
            kept(state, state.settings.copy(typed = typed, holds = event.holds))
        }
        is Event.Failed -> Step(state.copy(busy = false, wrong = mapOf(event.field to event.reason)))
        else -> Step(state)
    }

    override fun draft(state: SettingsState) = state.draft

    private fun pressed(state: SettingsState, what: Press): Step<SettingsState> = when {
        state.busy -> Step(state)
        what == Press.OTHER -> Step(state.copy(busy = true), Effect.Ask(Call.NamePerson(state.draft.at("name"))))
        what == Press.SAVE -> {
            val (barrow, bucket, trailer) = CONTAINERS.map { state.draft.at(it) }
            Step(state.copy(busy = true), Effect.Ask(Call.ReadContainers(ContainersGiven(barrow, bucket, trailer))))
        }
        else -> Step(state)
    }

    /** Set, and felt by the hand. */
    private fun kept(state: SettingsState, settings: Settings): Step<SettingsState> {
        val step = set(state, settings)
        return Step(step.state, listOf(Effect.Confirm) + step.effects)
    }

    private fun set(state: SettingsState, settings: Settings): Step<SettingsState> {
        val typed = state.draft - CONTAINERS.toSet() + settings.typed
        val draft = if (settings.units == state.settings.units) state.draft else typed
        return Step(state.copy(settings = settings, draft = draft, busy = false, wrong = emptyMap()), Effect.Set(settings))
    }

    companion object {
        val CONTAINERS = listOf("barrow", "bucket", "trailer")
    }
}
