namespace PupilBridge.Browser.Tests;

/// <summary>One browser for all tests; each test visits with a context of its own.</summary>
public sealed class ChromiumFixture : IAsyncLifetime
{
    private Chromium? chromium;

    public Chromium Chromium => chromium ?? throw new InvalidOperationException("The browser has not been started.");

    public async Task InitializeAsync() => chromium = await Chromium.StartAsync();

    public async Task DisposeAsync()
    {
        if (chromium is not null)
            await chromium.DisposeAsync();
    }
}
