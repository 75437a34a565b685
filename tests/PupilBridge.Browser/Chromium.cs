using Microsoft.Playwright;

namespace PupilBridge.Browser;

/// <summary>One headless Chromium of the machine, driven by Playwright. Each visitor gets a context of their own.</summary>
public sealed class Chromium : IAsyncDisposable
{
    /// <summary>Where Debian puts it.</summary>
    public const string Executable = "/usr/bin/chromium";

    private readonly IPlaywright playwright;

    private Chromium(IPlaywright playwright, IBrowser browser) => (this.playwright, Browser) = (playwright, browser);

    /// <summary>The browser.</summary>
    public IBrowser Browser { get; }

    /// <summary>Starts it.</summary>
    public static async Task<Chromium> StartAsync()
    {
        var playwright = await Playwright.CreateAsync().ConfigureAwait(false);
        var browser = await playwright
            .Chromium.LaunchAsync(
                new BrowserTypeLaunchOptions
                {
                    ExecutablePath = Executable,
                    Timeout = 120_000,
                    Args =
                    [
                        "--no-sandbox",
                        "--disable-gpu",
                        "--disable-quic",
                        "--no-first-run",
                        "--disable-background-networking",
                        "--disable-component-update",
                        "--disable-sync",
                        "--mute-audio",
                        "--lang=en-US",
                    ],
                }
            )
            .ConfigureAwait(false);
        return new Chromium(playwright, browser);
    }

    /// <summary>A visitor with cookies and storage of their own.</summary>
    /// <param name="address">Where relative addresses begin.</param>
    /// <param name="width">Width of the window in CSS pixels.</param>
    /// <param name="height">Height of the window in CSS pixels.</param>
    /// <param name="state">Cookies and storage to begin with, as an earlier visitor left them; null for none.</param>
    public async Task<Visitor> VisitAsync(Uri address, int width = 1920, int height = 1080, string? state = null)
    {
        var context = await Browser
            .NewContextAsync(
                new BrowserNewContextOptions
                {
                    BaseURL = address.ToString(),
                    ViewportSize = new ViewportSize { Width = width, Height = height },
                    StorageState = state,
                    ReducedMotion = ReducedMotion.Reduce,
                    TimezoneId = "UTC",
                    Locale = "en-GB",
                }
            )
            .ConfigureAwait(false);
        context.SetDefaultTimeout(60_000);
        context.SetDefaultNavigationTimeout(90_000);
        return new Visitor(context, address);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync().ConfigureAwait(false);
        playwright.Dispose();
    }
}
