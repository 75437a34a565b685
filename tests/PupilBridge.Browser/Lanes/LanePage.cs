using System.Diagnostics;
using Microsoft.Playwright;

namespace PupilBridge.Browser.Lanes;

/// <summary>A lane's page as an examiner has it before them, with keys pressed as a hand presses them. Every key is counted.</summary>
/// <param name="page">The page, open at the lane.</param>
public sealed class LanePage(IPage page) : IDisposable
{
    /// <summary>How long a key stays down, in ms.</summary>
    private const float KeyDown = 70;

    /// <summary>The least time from one key to the next, in ms: the lane takes faster ones for a scanner's.</summary>
    private const int BetweenKeys = 150;

    /// <summary>From a question on the screen to the key that answers it, in ms: nobody is faster, and a faster key is a doubled one.</summary>
    private const int Reading = 450;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);
    private readonly SemaphoreSlim hand = new(1);
    private readonly List<string> pressed = [];

    /// <summary>The page.</summary>
    public IPage Page { get; private set; } = page;

    /// <summary>All keys pressed since <see cref="CountAnew"/>.</summary>
    public IReadOnlyList<string> Pressed
    {
        get
        {
            lock (pressed)
                return [.. pressed];
        }
    }

    /// <summary>Counts keys from nought.</summary>
    public void CountAnew()
    {
        lock (pressed)
            pressed.Clear();
    }

    /// <summary>Goes on with another page of the same lane, after the browser was closed.</summary>
    /// <param name="next">The page.</param>
    public void GoOnWith(IPage next) => Page = next;

    /// <summary>Presses one key.</summary>
    /// <param name="key">The key as Playwright names it, such as <c>3</c> or <c>Enter</c>.</param>
    public async Task PressAsync(string key)
    {
        await hand.WaitAsync().ConfigureAwait(false);
        try
        {
            await Page.Keyboard.PressAsync(key, new KeyboardPressOptions { Delay = KeyDown }).ConfigureAwait(false);
            lock (pressed)
                pressed.Add(key);
            await Task.Delay(BetweenKeys).ConfigureAwait(false);
        }
        finally
        {
            hand.Release();
        }
    }

    /// <summary>Chooses a patient in the lane's dialog; one who is not known yet is added there.</summary>
    /// <param name="patient">The clinic's number.</param>
    public async Task ChoosePatientAsync(string patient)
    {
        await PressAsync("NumpadAdd").ConfigureAwait(false);
        await Page.Locator("#patient-dialog[open]").WaitForAsync().ConfigureAwait(false);
        await Page.Keyboard.TypeAsync(patient).ConfigureAwait(false);
        var chosen = Page.Locator("#patient-list [aria-selected=true] .number", new() { HasText = patient });
        await chosen.WaitForAsync().ConfigureAwait(false);
        await PressAsync("Enter").ConfigureAwait(false);
        if (await Page.Locator("#patient-new").IsVisibleAsync().ConfigureAwait(false))
            await PressAsync("Enter").ConfigureAwait(false);
        await Page.Locator("#patient-number", new() { HasText = patient }).WaitForAsync().ConfigureAwait(false);
        await UntilAskedAsync(asked => asked.Exam > 0, $"an exam of {patient}").ConfigureAwait(false);
    }

    /// <summary>What the lane asks for now.</summary>
    public async Task<LaneQuestion> AskedAsync()
    {
        var found = await Page.EvaluateAsync<string[]?>(
                """
                () => {
                    const asked = document.querySelector("[data-prompt-key]");
                    return asked ? [asked.dataset.promptKey ?? "", asked.dataset.accepts ?? ""] : null;
                }
                """
            )
            .ConfigureAwait(false);
        return found is [var key, var accepts] ? new LaneQuestion(key, accepts) : LaneQuestion.None;
    }

    /// <summary>Waits until the lane asks for something.</summary>
    /// <param name="isIt">What.</param>
    /// <param name="what">The same in words, for the message.</param>
    /// <param name="patience">How long at most; null for as long as a busy machine may need.</param>
    /// <exception cref="TimeoutException">It did not come.</exception>
    public async Task<LaneQuestion> UntilAskedAsync(
        Func<LaneQuestion, bool> isIt,
        string what,
        TimeSpan? patience = null
    )
    {
        var watch = Stopwatch.StartNew();
        while (true)
        {
            var asked = await AskedAsync().ConfigureAwait(false);
            if (isIt(asked))
                return asked;
            if (watch.Elapsed > (patience ?? Patience))
                throw new TimeoutException(
                    $"The lane did not come to: {what}. It asks for '{asked.Key}' ({asked.Accepts})."
                );
            await Task.Delay(50).ConfigureAwait(false);
        }
    }

    /// <summary>Opens an optional question with the key for it, as soon as it is offered and nothing due stands before it.</summary>
    /// <param name="isIt">Which.</param>
    /// <param name="patience">How long it is waited for.</param>
    /// <returns>Whether it stands on the screen.</returns>
    public async Task<bool> OpenOptionalAsync(Func<LaneQuestion, bool> isIt, TimeSpan patience)
    {
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed < patience)
        {
            if (isIt(await AskedAsync().ConfigureAwait(false)))
                return true;
            var asked = await AskedAsync().ConfigureAwait(false);
            var offered = await OfferedAsync().ConfigureAwait(false);
            if (
                asked.Accepts is "none" or "light" or "ready"
                && offered.Any(key => isIt(new LaneQuestion(key, "grade")))
            )
                await PressAsync("c").ConfigureAwait(false);
            else
                await Task.Delay(50).ConfigureAwait(false);
        }

        return isIt(await AskedAsync().ConfigureAwait(false));
    }

    /// <summary>Answers an optional question that stands open, unless something due takes its place before.</summary>
    /// <param name="key">The key.</param>
    /// <param name="isIt">The question.</param>
    /// <returns>Whether it was answered.</returns>
    public async Task<bool> AnswerOptionalAsync(string key, Func<LaneQuestion, bool> isIt)
    {
        await Task.Delay(Reading).ConfigureAwait(false);
        var asked = await AskedAsync().ConfigureAwait(false);
        if (!isIt(asked))
            return false;
        await PressAsync(key).ConfigureAwait(false);
        await UntilAskedAsync(now => now.Key != asked.Key, $"anything after {asked.Key} was answered with {key}")
            .ConfigureAwait(false);
        return !(await OfferedAsync().ConfigureAwait(false)).Contains(asked.Key);
    }

    /// <summary>Waits until all that was typed is recorded.</summary>
    public Task UntilRecordedAsync() =>
        Page.Locator("#waiting").WaitForAsync(new() { State = WaitForSelectorState.Hidden });

    /// <summary>Answers a question with one key and waits until the lane asks for something else.</summary>
    /// <param name="key">The key.</param>
    /// <param name="isIt">The question to wait for.</param>
    /// <param name="what">The same in words.</param>
    public async Task AnswerAsync(string key, Func<LaneQuestion, bool> isIt, string what)
    {
        var asked = await UntilAskedAsync(isIt, what).ConfigureAwait(false);
        await Task.Delay(Reading).ConfigureAwait(false);
        await PressAsync(key).ConfigureAwait(false);
        await UntilAskedAsync(now => now.Key != asked.Key, $"anything after {asked.Key} was answered with {key}")
            .ConfigureAwait(false);
    }

    private async Task<string[]> OfferedAsync() =>
        (await Page.GetAttributeAsync("#ask", "data-offered").ConfigureAwait(false) ?? "").Split(' ');

    /// <inheritdoc/>
    public void Dispose() => hand.Dispose();
}
