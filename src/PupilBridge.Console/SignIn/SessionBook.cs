using System.Collections.Concurrent;
using System.Security.Cryptography;
using PupilBridge.Clinic.People;
using PupilBridge.Console.Hosting;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// Who is signed in where, and when something was done last. The cookie names a session and this book says whether it still
/// stands, so that a copy of a cookie is worth nothing after its owner signed off. It is kept in a file, so that a restart of the
/// service in the middle of an exam signs nobody off. Safe for several threads.
/// </summary>
internal sealed class SessionBook : IDisposable
{
    private readonly ConcurrentDictionary<string, Session> open = new(StringComparer.Ordinal);
    private readonly TimeProvider time;
    private readonly IPeopleDesk people;
    private readonly SessionFile file;
    private readonly RandomNumberGenerator random = RandomNumberGenerator.Create();

    public SessionBook(ConsoleSettings settings, TimeProvider time, IPeopleDesk people)
    {
        (this.time, this.people) = (time, people);
        (Idle, Longest) = (settings.IdleSignOff, settings.LongestSession);
        file = new SessionFile(settings.DataFolder);
        foreach (var session in file.Read())
        {
            open[session.Id] = session;
        }
    }

    /// <summary>After how long without anything done a session is over.</summary>
    public TimeSpan Idle { get; }

    /// <summary>How long after the sign-in a session is over, whatever was done.</summary>
    public TimeSpan Longest { get; }

    /// <summary>Begins a session.</summary>
    public Session Begin(PersonView person, SessionPlace place)
    {
        var id = new byte[16];
        random.GetBytes(id);
        var now = time.GetUtcNow();
        var session = new Session(Convert.ToHexStringLower(id), person.Who, person.Stamp, place, now, now);
        open[session.Id] = session;
        Keep();
        return session;
    }

    /// <summary>A session that stands; null if it is over.</summary>
    public Session? Find(string id) => open.TryGetValue(id, out var session) && Stands(session) ? session : null;

    /// <summary>The sessions of a person that stand, the oldest first.</summary>
    public IReadOnlyList<Session> Of(string who) =>
        [.. open.Values.Where(session => session.Who == who && Stands(session)).OrderBy(session => session.Began)];

    /// <summary>Notes that something was done.</summary>
    public void Touch(Session session) => session.Touch(time.GetUtcNow());

    /// <summary>Until when the session stands if nothing more is done.</summary>
    public DateTimeOffset Until(Session session) =>
        session.LastActivity + Idle is var idle && idle < LastEnd(session) ? idle : LastEnd(session);

    /// <summary>When the session ends at the latest, whatever is done.</summary>
    public DateTimeOffset LastEnd(Session session) => session.Began + Longest;

    /// <summary>How long it is until then.</summary>
    public TimeSpan Left(Session session) => LastEnd(session) - time.GetUtcNow();

    /// <summary>Ends a session.</summary>
    /// <returns>False if it was over already.</returns>
    public bool End(string id)
    {
        if (!open.TryRemove(id, out var session))
        {
            return false;
        }

        session.End();
        Keep();
        return true;
    }

    /// <summary>Ends what is over: idle and old sessions, and those of people who were changed since.</summary>
    /// <returns>Those that ended by themselves, and why.</returns>
    public IReadOnlyList<(Session Session, SignOffReason Why)> Sweep()
    {
        var ended = open
            .Values.Select(session => (Session: session, Why: WhyOver(session)))
            .Where(one => one.Why is not null && End(one.Session.Id))
            .Select(one => (one.Session, one.Why!.Value))
            .ToList();
        foreach (var session in open.Values.Where(session => !IsStill(session)))
        {
            End(session.Id);
        }

        Keep();
        return ended;
    }

    public void Dispose()
    {
        Keep();
        foreach (var session in open.Values)
        {
            session.End();
        }

        random.Dispose();
    }

    private SignOffReason? WhyOver(Session session) =>
        time.GetUtcNow() - session.LastActivity > Idle ? SignOffReason.Idle
        : Left(session) <= TimeSpan.Zero ? SignOffReason.LongestLife
        : null;

    private bool Stands(Session session) => WhyOver(session) is null && IsStill(session);

    private bool IsStill(Session session) =>
        people.Find(session.Who) is { IsEnabled: true } person && person.Stamp == session.Stamp;

    private void Keep() => file.Write(open.Values);
}
