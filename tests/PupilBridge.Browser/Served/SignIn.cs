using Microsoft.Playwright;

namespace PupilBridge.Browser.Served;

/// <summary>Signs in as a person does at the keyboard.</summary>
public static class SignIn
{
    /// <summary>The sign-in page.</summary>
    public const string Path = "/sign-in";

    /// <summary>Signs in on a page that asks for it, by the keyboard alone, and waits for what follows.</summary>
    /// <param name="page">The page, open where a sign-in is asked for.</param>
    /// <param name="who">The sign-in name.</param>
    /// <param name="password">The password; null for the right one.</param>
    public static async Task TypeAsync(IPage page, string who, string? password = null)
    {
        ArgumentNullException.ThrowIfNull(page);
        await page.Locator("input[autocomplete=username]").FocusAsync().ConfigureAwait(false);
        await page.Keyboard.PressAsync("Control+A").ConfigureAwait(false);
        await page.Keyboard.TypeAsync(who).ConfigureAwait(false);
        await page.Keyboard.PressAsync("Tab").ConfigureAwait(false);
        await page.Keyboard.TypeAsync(password ?? ServedConsole.Password).ConfigureAwait(false);
        var answer = page.WaitForResponseAsync(r => r.Request.Method == "POST");
        await page.Keyboard.PressAsync("Enter").ConfigureAwait(false);
        await answer.ConfigureAwait(false);
        await page.WaitForLoadStateAsync(LoadState.Load).ConfigureAwait(false);
    }

    /// <summary>Opens a page of the console as somebody.</summary>
    /// <param name="visitor">Their browser.</param>
    /// <param name="who">The sign-in name.</param>
    /// <param name="path">The page that they want.</param>
    public static async Task<IPage> OpenAsync(Visitor visitor, string who, string path)
    {
        ArgumentNullException.ThrowIfNull(visitor);
        var page = await visitor.OpenAsync(path).ConfigureAwait(false);
        await TypeAsync(page, who).ConfigureAwait(false);
        await page.WaitForURLAsync(url => new Uri(url).AbsolutePath == path).ConfigureAwait(false);
        return page;
    }
}
