using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Text;
using PupilBridge.Console.Hosting;
using PupilBridge.Console.SignIn;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages;

/// <summary>What every page and every part of one has at hand.</summary>
public abstract class PagePart : ComponentBase
{
    /// <summary>The request.</summary>
    [CascadingParameter]
    public HttpContext Context { get; set; } = null!;

    /// <summary>The desks, as the caller may use them.</summary>
    [Inject]
    protected CallerDesks Desks { get; set; } = null!;

    /// <summary>Times for people.</summary>
    [Inject]
    protected HouseTime Times { get; set; } = null!;

    /// <summary>How the console is served.</summary>
    [Inject]
    protected ConsoleSettings Settings { get; set; } = null!;

    /// <summary>Where to go after a form.</summary>
    [Inject]
    protected NavigationManager Navigation { get; set; } = null!;

    /// <summary>The words.</summary>
    protected static HouseText T => PageText.Words;

    /// <summary>Who calls.</summary>
    protected Caller Me => Desks.Caller;

    /// <summary>Gives up when the browser does.</summary>
    protected CancellationToken Gone => Context.RequestAborted;

    /// <summary>A value as it stands in an address.</summary>
    protected static string InPath(string value) => Uri.EscapeDataString(value);

    /// <summary>A value out of an address: a slash stays escaped on the way here.</summary>
    protected static string OutOfPath(string value) => value.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);

    /// <summary>The word of a value out of a closed set of words.</summary>
    protected static string Word(string group, string? word) => PageText.Of(group, word);
}
