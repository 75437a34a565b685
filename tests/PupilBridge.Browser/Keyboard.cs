using Microsoft.Playwright;

namespace PupilBridge.Browser;

/// <summary>Gets about a page as somebody does who has no mouse.</summary>
public static class Keyboard
{
    /// <summary>So many Tabs lead past every control of any page.</summary>
    private const int MostTabs = 250;

    /// <summary>Presses Tab until something has the focus.</summary>
    /// <param name="page">The page.</param>
    /// <param name="selector">What is wanted.</param>
    /// <exception cref="InvalidOperationException">Tab never leads there.</exception>
    public static async Task TabToAsync(IPage page, string selector)
    {
        ArgumentNullException.ThrowIfNull(page);
        for (var tabs = 0; tabs < MostTabs; tabs++)
        {
            if (await HasFocusAsync(page, selector).ConfigureAwait(false))
                return;
            await page.Keyboard.PressAsync("Tab").ConfigureAwait(false);
        }

        throw new InvalidOperationException($"Tab does not lead to '{selector}' on {page.Url}.");
    }

    /// <summary>Presses Tab until something has the focus, then Enter, and waits for the page that follows.</summary>
    /// <param name="page">The page.</param>
    /// <param name="selector">A link or a button that leads on.</param>
    public static async Task FollowAsync(IPage page, string selector)
    {
        await TabToAsync(page, selector).ConfigureAwait(false);
        await page.EvaluateAsync("() => { document.documentElement.dataset.left = 'yes'; }").ConfigureAwait(false);
        await page.Keyboard.PressAsync("Enter").ConfigureAwait(false);
        await page.Locator("html:not([data-left]) body")
            .WaitForAsync(new() { State = WaitForSelectorState.Attached })
            .ConfigureAwait(false);
        await page.WaitForLoadStateAsync(LoadState.Load).ConfigureAwait(false);
    }

    /// <summary>Opens what is folded.</summary>
    /// <param name="page">The page.</param>
    /// <param name="selector">The fold, a details element.</param>
    public static async Task UnfoldAsync(IPage page, string selector)
    {
        await TabToAsync(page, $"{selector} > summary").ConfigureAwait(false);
        await page.Keyboard.PressAsync("Enter").ConfigureAwait(false);
        await page.Locator($"{selector}[open]").WaitForAsync().ConfigureAwait(false);
    }

    /// <summary>Goes to a field and types over what it holds.</summary>
    /// <param name="page">The page.</param>
    /// <param name="selector">The field.</param>
    /// <param name="text">What to type.</param>
    public static async Task TypeAsync(IPage page, string selector, string text)
    {
        await TabToAsync(page, selector).ConfigureAwait(false);
        await page.Keyboard.PressAsync("Control+A").ConfigureAwait(false);
        await page.Keyboard.TypeAsync(text).ConfigureAwait(false);
    }

    /// <summary>Goes to a list of choices and moves to one with the arrows.</summary>
    /// <param name="page">The page.</param>
    /// <param name="selector">The list.</param>
    /// <param name="value">The choice's value.</param>
    /// <exception cref="InvalidOperationException">There is no such choice.</exception>
    public static async Task ChooseAsync(IPage page, string selector, string value)
    {
        await TabToAsync(page, selector).ConfigureAwait(false);
        for (var moves = 0; moves < MostTabs; moves++)
        {
            if (await page.EvaluateAsync<string>("() => document.activeElement.value").ConfigureAwait(false) == value)
                return;
            await page.Keyboard.PressAsync("ArrowDown").ConfigureAwait(false);
        }

        throw new InvalidOperationException($"'{selector}' on {page.Url} has no choice '{value}'.");
    }

    private static Task<bool> HasFocusAsync(IPage page, string selector) =>
        page.EvaluateAsync<bool>("selector => document.activeElement?.matches(selector) ?? false", selector);
}
