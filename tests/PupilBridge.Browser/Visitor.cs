using System.Collections.Concurrent;
using Microsoft.Playwright;

namespace PupilBridge.Browser;

/// <summary>
/// A person's browser. It notes everything that must never happen on any page: a request to anywhere but the console, an error of a
/// script, a word of the content security policy.
/// </summary>
public sealed class Visitor : IAsyncDisposable
{
    private readonly ConcurrentQueue<string> problems = new();
    private readonly Uri address;

    internal Visitor(IBrowserContext context, Uri address)
    {
        Context = context;
        this.address = address;
        context.Request += (_, request) => Look(request.Url);
        context.WebError += (_, error) => problems.Enqueue($"script: {error.Error}");
        context.Console += (_, message) => Listen(message);
    }

    /// <summary>The browser's context.</summary>
    public IBrowserContext Context { get; }

    /// <summary>What must not have happened; empty if all is well.</summary>
    public IReadOnlyList<string> Problems => [.. problems];

    /// <summary>Opens a tab.</summary>
    /// <param name="path">The page, such as <c>/lane/QA-0601</c>.</param>
    public async Task<IPage> OpenAsync(string path)
    {
        var page = await Context.NewPageAsync().ConfigureAwait(false);
        await page.GotoAsync(path, new PageGotoOptions { WaitUntil = WaitUntilState.Load }).ConfigureAwait(false);
        return page;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await Context.DisposeAsync().ConfigureAwait(false);

    private void Look(string url)
    {
        var asked = new Uri(url);
        var isOurs = asked.Scheme is "data" or "blob" or "about" || asked.Authority == address.Authority;
        if (!isOurs)
            problems.Enqueue($"request to {url}");
    }

    // "Failed to load resource" is how Chromium tells of an answer of 400 and above and of a connection that is down. Both are part of
    // what is tested (a refused sign-in, a service that was killed), and the pages themselves must say them.
    private void Listen(IConsoleMessage message)
    {
        if (message.Type == "error" && !message.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
            problems.Enqueue($"console: {message.Text} ({message.Location})");
    }
}
