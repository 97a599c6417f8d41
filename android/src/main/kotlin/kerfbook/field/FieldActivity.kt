package kerfbook.field

import android.Manifest
import android.app.Activity
import android.content.Context
import android.content.res.Configuration
import android.os.Build
import android.os.Bundle
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.view.inputmethod.InputMethodManager
import android.widget.LinearLayout
import android.widget.ScrollView
import android.widget.TextView
import kerfbook.core.CoreException
import kerfbook.core.NewHolding
import kerfbook.field.platform.Gateway
import kerfbook.field.platform.HandedOver
import kerfbook.field.platform.KeptSettings
import kerfbook.field.platform.Phone
import kerfbook.field.presenter.BookPresenter
import kerfbook.field.presenter.Call
import kerfbook.field.presenter.Effect
import kerfbook.field.presenter.Event
import kerfbook.field.presenter.FinishPresenter
import kerfbook.field.presenter.HeatPresenter
import kerfbook.field.presenter.LookPresenter
import kerfbook.field.presenter.Navigation
import kerfbook.field.presenter.NewCropPresenter
import kerfbook.field.presenter.NewLoadPresenter
import kerfbook.field.presenter.NewPilePresenter
import kerfbook.field.presenter.NewPlacePresenter
import kerfbook.field.presenter.NewTrialPresenter
import kerfbook.field.presenter.PilePresenter
import kerfbook.field.presenter.PilesPresenter
import kerfbook.field.presenter.PlacePresenter
import kerfbook.field.presenter.PlacesPresenter
import kerfbook.field.presenter.Presenter
import kerfbook.field.presenter.PutDownPresenter
import kerfbook.field.presenter.ScorePresenter
import kerfbook.field.presenter.Screen
import kerfbook.field.presenter.SettingsPresenter
import kerfbook.field.presenter.TodayPresenter
import kerfbook.field.presenter.TrialPresenter
import kerfbook.field.presenter.TrialsPresenter
import kerfbook.field.presenter.TurnPresenter
import kerfbook.field.presenter.WalkPresenter
import kerfbook.field.presenter.reason
import kerfbook.field.view.BookPage
import kerfbook.field.view.FinishPage
import kerfbook.field.view.Flow
import kerfbook.field.view.FoundPage
import kerfbook.field.view.HeatPage
import kerfbook.field.view.Look
import kerfbook.field.view.LookPage
import kerfbook.field.view.NewCropPage
import kerfbook.field.view.NewLoadPage
import kerfbook.field.view.NewPilePage
import kerfbook.field.view.NewPlacePage
import kerfbook.field.view.NewTrialPage
import kerfbook.field.view.Page
import kerfbook.field.view.PilePage
import kerfbook.field.view.PilesPage
import kerfbook.field.view.PlacePage
import kerfbook.field.view.PlacesPage
import kerfbook.field.view.PutDownPage
import kerfbook.field.view.ScorePage
import kerfbook.field.view.SettingsPage
import kerfbook.field.view.Sizes
import kerfbook.field.view.TodayPage
import kerfbook.field.view.TrialPage
import kerfbook.field.view.TrialsPage
import kerfbook.field.view.TurnPage
import kerfbook.field.view.WalkPage
import kerfbook.field.view.below
import kerfbook.field.view.column
import kerfbook.field.view.pressable
import kerfbook.field.view.secondary
import kerfbook.field.view.shown
import kerfbook.field.view.text
import kerfbook.field.view.title
import java.io.File

/** The one activity: shows the screen on top, hands its effects to the core and to the phone. */
class FieldActivity : Activity() {
    private lateinit var look: Look
    private lateinit var gateway: Gateway
    private lateinit var frame: LinearLayout
    private lateinit var main: LinearLayout
    private lateinit var bar: ViewGroup
    private lateinit var scroll: ScrollView
    private lateinit var action: LinearLayout
    private var navigation = Navigation.FIRST
    private var live: Live<*>? = null

    /** A screen at work. */
    private inner class Live<S>(private val presenter: Presenter<S>, val page: Page<S>, draft: Map<String, String>) {
        private val first = presenter.start(draft)
        private var state = first.state

        val draft: Map<String, String> get() = presenter.draft(state)

        fun start() {
            page.show(state)
            first.effects.forEach { perform(it, this) }
        }

        fun on(event: Event) {
            val step = presenter.next(state, event)
            state = step.state
            page.show(state)
            step.effects.forEach { perform(it, this) }
        }
    }

    override fun attachBaseContext(base: Context) = super.attachBaseContext(KeptSettings(base).dressed())

    override fun onCreate(saved: Bundle?) {
        super.onCreate(saved)
        look = Look(this)
        gateway = Phone.gateway(applicationContext)
        navigation = saved?.getStringArrayList(KEPT)?.let(::unpacked) ?: Navigation.FIRST
        build()
        open()
    }

    override fun onSaveInstanceState(out: Bundle) {
        live?.let { navigation = navigation.keep(it.draft) }
        out.putStringArrayList(KEPT, packed(navigation))
        super.onSaveInstanceState(out)
    }

    @Deprecated("the newer way is missing on the oldest Android supported")
    override fun onBackPressed() {
        when {
            navigation.deep -> close(emptyMap())
            navigation.root != Screen.Kind.TODAY -> go(navigation.start(Screen.Kind.TODAY))
            else -> {
                @Suppress("DEPRECATION")
                super.onBackPressed()
            }
        }
    }

    private fun open() = gateway.open(Phone.reader(this), KeptSettings(this).read().person, ::opened)

    private fun opened(how: Gateway.Opened) {
        if (isDestroyed) return
        when (how) {
            is Gateway.Opened.Ready -> go(navigation)
            is Gateway.Opened.None -> begin()
            is Gateway.Opened.Trouble -> trouble(how.why)
        }
    }

    /** Shows what is on top. */
    private fun go(to: Navigation) {
        navigation = to
        val (screen, draft) = to.top
        // What it asks for at its start may be answered at once, or lead on to another screen.
        val now = liveOf(screen, draft)
        live = now
        fill(name(screen.kind), to.deep, now.page.content, now.page.action)
        mark(to.root)
        now.start()
    }

    private fun liveOf(screen: Screen, draft: Map<String, String>): Live<*> {
        val us = Phone.us(this)
        return when (screen.kind) {
            Screen.Kind.TODAY -> Live(TodayPresenter, TodayPage(look, ::send), draft)
            Screen.Kind.PLACES -> Live(PlacesPresenter, PlacesPage(look, ::send), draft)
            Screen.Kind.PLACE -> Live(PlacePresenter(screen.about), PlacePage(look, ::send), draft)
            Screen.Kind.NEW_PLACE -> Live(NewPlacePresenter, NewPlacePage(look, ::send, us), draft)
            Screen.Kind.NEW_LOAD -> Live(NewLoadPresenter, NewLoadPage(look, ::send), draft)
            Screen.Kind.NEW_CROP -> Live(NewCropPresenter(screen.about), NewCropPage(look, ::send), draft)
            Screen.Kind.PUT_DOWN -> Live(PutDownPresenter(screen.about), PutDownPage(look, ::send), draft)
            Screen.Kind.LOOK -> Live(LookPresenter(screen.about), LookPage(look, ::send, us), draft)
            Screen.Kind.SETTINGS ->
                Live(SettingsPresenter(KeptSettings(this).read()), SettingsPage(look, ::send, us), draft)
            Screen.Kind.BOOK -> Live(BookPresenter, BookPage(look, ::send), draft)
            Screen.Kind.WALK -> Live(WalkPresenter(screen.about), WalkPage(look, ::send), draft)
            Screen.Kind.PILES -> Live(PilesPresenter, PilesPage(look, ::send), draft)
            Screen.Kind.NEW_PILE -> Live(NewPilePresenter, NewPilePage(look, ::send, us), draft)
            Screen.Kind.PILE -> Live(PilePresenter(screen.about), PilePage(look, ::send), draft)
            Screen.Kind.HEAT -> Live(HeatPresenter(screen.about), HeatPage(look, ::send, us), draft)
            Screen.Kind.TURN -> Live(TurnPresenter(screen.about), TurnPage(look, ::send, us), draft)
            Screen.Kind.FINISH -> Live(FinishPresenter(screen.about), FinishPage(look, ::send), draft)
            Screen.Kind.TRIALS -> Live(TrialsPresenter, TrialsPage(look, ::send), draft)
            Screen.Kind.NEW_TRIAL -> Live(NewTrialPresenter, NewTrialPage(look, ::send), draft)
            Screen.Kind.TRIAL -> Live(TrialPresenter(screen.about), TrialPage(look, ::send), draft)
            Screen.Kind.SCORE -> Live(ScorePresenter(screen.about), ScorePage(look, ::send, us), draft)
        }
    }

    private fun send(event: Event) {
        live?.on(event)
    }

    private fun perform(effect: Effect, from: Live<*>) {
        when (effect) {
            is Effect.Ask -> gateway.ask(effect.call) { if (live === from && !isDestroyed) from.on(it) }
            is Effect.Open -> go(navigation.keep(from.draft).open(effect.screen))
            is Effect.Close -> close(effect.brings)
            is Effect.Set -> {
                KeptSettings(this).keep(effect.settings)
                recreate()
            }
            is Effect.Walk -> walk(effect.wish, from)
            is Effect.Buzz -> Phone.buzz(this)
            is Effect.HandOver -> gateway.ask(Call.HandOver(HandedOver.place(this).path)) {
                if (isDestroyed) return@ask
                if (it is Event.HandedOver) startActivity(HandedOver.sharing(File(it.path))) else from.on(it)
            }
            is Effect.Confirm -> {
                hideKeyboard()
                scroll.scrollTo(0, 0)
                Phone.buzz(this)
            }
        }
    }

    /** Fixes go to the screen that asked, as long as it is on top; the walk itself goes on behind any other. */
    private fun walk(wish: Effect.Walk.Wish, from: Live<*>) {
        val walking = Phone.walking(applicationContext)
        walking.listener = { if (live === from && !isDestroyed) from.on(it) }
        when (wish) {
            Effect.Walk.Wish.TELL -> walking.tell()
            Effect.Walk.Wish.START -> if (walking.allowed) walking.start() else requestPermissions(leave(), WALK)
            Effect.Walk.Wish.STOP -> walking.stop()
            Effect.Walk.Wish.FORGET -> walking.forget()
        }
    }

    override fun onRequestPermissionsResult(request: Int, permissions: Array<String>, results: IntArray) {
        super.onRequestPermissionsResult(request, permissions, results)
        // Where leave was not given, the walk says so.
        if (request == WALK) Phone.walking(applicationContext).start()
    }

    private fun close(brings: Map<String, String>) {
        val below = navigation.close()
        go(below.keep(below.top.draft + brings))
    }

    private fun hideKeyboard() {
        val keyboard = getSystemService(INPUT_METHOD_SERVICE) as InputMethodManager
        keyboard.hideSoftInputFromWindow(frame.windowToken, 0)
    }

    private fun begin() {
        live = null
        lateinit var page: FoundPage
        page = FoundPage(look) { name, sells, certified ->
            val holding = NewHolding(name, getString(R.string.device), sells, certified, null)
            gateway.found(holding, Phone.reader(this)) { how ->
                when {
                    isDestroyed -> Unit
                    how is Gateway.Opened.Trouble && how.why is CoreException.BadInput -> page.wrong(reason(how.why))
                    else -> opened(how)
                }
            }
        }
        bar.shown(false)
        fill(R.string.found, false, page.content, page.action)
    }

    private fun trouble(why: CoreException) {
        live = null
        bar.shown(false)
        val content = look.column()
        content.below(look.text(Sizes.BODY, look.warn, bold = true).apply { text = reason(why) })
        val again = look.secondary(R.string.try_again) { open() }
        fill(R.string.no_opening, false, content, again)
    }

    private fun build() {
        val wide = resources.configuration.orientation == Configuration.ORIENTATION_LANDSCAPE
        frame = LinearLayout(this).apply {
            orientation = if (wide) LinearLayout.HORIZONTAL else LinearLayout.VERTICAL
            setBackgroundColor(look.surface)
        }
        // At large type the names need a second row.
        bar = if (wide) look.column() else Flow(this, 0, stretch = true)
        bar.setBackgroundColor(look.surface)
        Screen.ROOTS.forEach { bar.addView(tab(it), ViewGroup.LayoutParams(MATCH_PARENT, WRAP_CONTENT)) }
        scroll = ScrollView(this).apply { isFillViewport = true }
        action = look.column().apply {
            setBackgroundColor(look.surface)
            val side = look.dp(Look.MARGIN)
            setPadding(side, look.dp(Look.GAP), side, look.dp(Look.GAP))
        }
        main = look.column().apply {
            setBackgroundColor(look.ground)
            addView(scroll, LinearLayout.LayoutParams(MATCH_PARENT, 0, 1f))
            addView(action, LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT))
        }
        if (wide) {
            frame.addView(ScrollView(this).apply { addView(bar) }, LinearLayout.LayoutParams(WRAP_CONTENT, MATCH_PARENT))
            frame.addView(main, LinearLayout.LayoutParams(0, MATCH_PARENT, 1f))
        } else {
            frame.addView(main, LinearLayout.LayoutParams(MATCH_PARENT, 0, 1f))
            frame.addView(bar, LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT))
        }
        bar.shown(false)
        action.shown(false)
        frame.setOnApplyWindowInsetsListener { view, insets ->
            @Suppress("DEPRECATION")
            view.setPadding(
                insets.systemWindowInsetLeft,
                insets.systemWindowInsetTop,
                insets.systemWindowInsetRight,
                insets.systemWindowInsetBottom,
            )
            insets
        }
        setContentView(frame)
    }

    private fun tab(kind: Screen.Kind): TextView = look.text(Sizes.TAB, look.ink, bold = true).apply {
        setText(name(kind))
        tag = kind
        pressable({ go(navigation.start(kind)) })
        minHeight = look.dp(TAB)
        setPadding(look.dp(SIDE), look.dp(Look.GAP), look.dp(SIDE), look.dp(Look.GAP))
    }

    /** The bar's tab of the screen that all began on. */
    private fun mark(root: Screen.Kind) {
        bar.shown(true)
        for (index in 0 until bar.childCount) {
            val tab = bar.getChildAt(index) as TextView
            val kind = tab.tag as Screen.Kind
            val here = kind == root
            tab.isSelected = here
            val colour = if (here) look.onChosen else look.ink
            tab.setTextColor(colour)
            tab.background = if (here) look.touchable(look.chosen, look.accent) else look.touchable(look.surface)
            tab.setCompoundDrawablesRelative(null, look.icon(icon(kind), colour), null, null)
        }
    }

    private fun fill(name: Int, deep: Boolean, content: View, act: View?) {
        val page = look.column()
        val side = look.dp(Look.MARGIN)
        page.setPadding(side, side, side, side * 2)
        val head = LinearLayout(this).apply { gravity = Gravity.CENTER_VERTICAL }
        if (deep) {
            val back = look.text(Sizes.BODY).apply {
                contentDescription = getString(R.string.back)
                pressable({ close(emptyMap()) })
                setCompoundDrawablesRelative(look.icon(R.drawable.back, look.ink), null, null, null)
                background = look.touchable(look.ground)
                setPadding(look.dp(Look.MARGIN), 0, look.dp(Look.MARGIN), 0)
            }
            head.addView(back)
        }
        head.addView(look.title(getString(name)), LinearLayout.LayoutParams(0, WRAP_CONTENT, 1f))
        page.below(head)
        page.below(content, Look.MARGIN)
        scroll.removeAllViews()
        scroll.addView(page)
        scroll.scrollTo(0, 0)
        action.removeAllViews()
        act?.let { action.below(it) }
        action.shown(act != null)
    }

    private fun name(kind: Screen.Kind): Int = when (kind) {
        Screen.Kind.TODAY -> R.string.today
        Screen.Kind.PLACES -> R.string.places
        Screen.Kind.PUT_DOWN -> R.string.put_down
        Screen.Kind.LOOK -> R.string.look
        Screen.Kind.BOOK -> R.string.book
        Screen.Kind.PLACE -> R.string.place
        Screen.Kind.NEW_PLACE -> R.string.new_place
        Screen.Kind.NEW_LOAD -> R.string.new_load
        Screen.Kind.NEW_CROP -> R.string.new_crop
        Screen.Kind.SETTINGS -> R.string.settings
        Screen.Kind.WALK -> R.string.walk
        Screen.Kind.PILES -> R.string.piles
        Screen.Kind.NEW_PILE -> R.string.new_pile
        Screen.Kind.PILE -> R.string.pile
        Screen.Kind.HEAT -> R.string.read_heat
        Screen.Kind.TURN -> R.string.turn_pile
        Screen.Kind.FINISH -> R.string.finish_pile
        Screen.Kind.TRIALS -> R.string.trials
        Screen.Kind.NEW_TRIAL -> R.string.new_trial
        Screen.Kind.TRIAL -> R.string.trial
        Screen.Kind.SCORE -> R.string.score
    }

    private fun icon(kind: Screen.Kind): Int = when (kind) {
        Screen.Kind.PLACES -> R.drawable.places
        Screen.Kind.PUT_DOWN -> R.drawable.put_down
        Screen.Kind.LOOK -> R.drawable.look
        Screen.Kind.BOOK -> R.drawable.book
        else -> R.drawable.today
    }

    private companion object {
        const val KEPT = "screens"
        const val TAB = 64
        const val SIDE = 6
        const val WALK = 1
    }
}

private const val PART = "\u001F"

/** What a walk needs leave for; its notice is shown where the person lets it. */
private fun leave(): Array<String> {
    val place = listOf(Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION)
    val notice = if (Build.VERSION.SDK_INT >= NOTICES_ASKED) listOf("android.permission.POST_NOTIFICATIONS") else emptyList()
    return (place + notice).toTypedArray()
}

/** Android 13. */
private const val NOTICES_ASKED = 33

/** The open screens and what was typed in them, as a bundle keeps them. */
internal fun packed(navigation: Navigation): ArrayList<String> = ArrayList(
    navigation.stack.map { open ->
        val draft = open.draft.flatMap { listOf(it.key, it.value) }
        (listOf(open.screen.kind.name, open.screen.about) + draft).joinToString(PART)
    },
)

internal fun unpacked(kept: List<String>): Navigation? {
    val stack = kept.mapNotNull { text ->
        val parts = text.split(PART)
        val kind = Screen.Kind.values().firstOrNull { it.name == parts.first() } ?: return@mapNotNull null
        val draft = parts.drop(2).chunked(2).filter { it.size == 2 }.associate { (field, value) -> field to value }
        Navigation.Open(Screen(kind, parts.getOrElse(1) { "" }), draft)
    }
    return if (stack.isEmpty()) null else Navigation(stack)
}
