using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.Console.SignIn;

/// <summary>One person signed in in one browser. Safe for several threads.</summary>
/// <param name="id">Its id, drawn at random; only the sealed cookie and this service know it.</param>
/// <param name="who">Who.</param>
/// <param name="stamp">The person's stamp when they signed in; another one ends the session.</param>
/// <param name="place">From where.</param>
/// <param name="began">When they signed in.</param>
/// <param name="at">When something was done last.</param>
internal sealed class Session(
    string id,
    string who,
    string stamp,
    SessionPlace place,
    DateTimeOffset began,
    DateTimeOffset at
) : IDisposable
{
    private readonly CancellationTokenSource over = new();
    private long lastTicks = at.UtcTicks;

    public string Id => id;

    /// <summary>A name for the session that may stand on a page: it opens nothing, and the id cannot be made of it.</summary>
    public string Tag { get; } = Convert.ToHexStringLower(SHA256.HashData(Encoding.ASCII.GetBytes(id)))[..16];

    public string Who => who;

    public string Stamp => stamp;

    /// <summary>From where the person signed in.</summary>
    public SessionPlace Place => place;

    /// <summary>When the person signed in, in UTC.</summary>
    public DateTimeOffset Began => began;

    /// <summary>When something was done last, in UTC.</summary>
    public DateTimeOffset LastActivity => new(Interlocked.Read(ref lastTicks), TimeSpan.Zero);

    /// <summary>Fires when the session is over, so that streams end with it.</summary>
    public CancellationToken Over => over.Token;

    /// <summary>Notes that something was done.</summary>
    public void Touch(DateTimeOffset now) => Interlocked.Exchange(ref lastTicks, now.UtcTicks);

    /// <summary>Ends it.</summary>
    public void End() => over.Cancel();

    public void Dispose() => over.Dispose();
}
