using Microsoft.Playwright;

namespace PupilBridge.Browser.Tests;

/// <summary>One browser for all tests, also for those that run beside each other; each visits with a context of its own.</summary>
public sealed class ChromiumFixture : IAsyncLifetime
{
    private static readonly SemaphoreSlim Gate = new(1);
    private static Chromium? shared;
    private static int users;

    public Chromium Chromium => shared ?? throw new InvalidOperationException("The browser has not been started.");

    public async Task InitializeAsync()
    {
        await Gate.WaitAsync();
        try
        {
            users++;
            // Whatever is expected of a page comes about sooner or later on a slow and busy machine.
            Assertions.SetDefaultExpectTimeout(45_000);
            shared ??= await Chromium.StartAsync();
        }
        finally
        {
            Gate.Release();
        }
    }

    public async Task DisposeAsync()
    {
        await Gate.WaitAsync();
        try
        {
            if (--users == 0 && shared is not null)
            {
                await shared.DisposeAsync();
                shared = null;
            }
        }
        finally
        {
            Gate.Release();
        }
    }
}
