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
        (this.time, this.people, Idle) = (time, people, settings.IdleSignOff);
        file = new SessionFile(settings.DataFolder);
        foreach (var session in file.Read())
        {
            open[session.Id] = session;
        }
    }

    /// <summary>After how long without anything done a session is over.</summary>
    public TimeSpan Idle { get; }

    /// <summary>Begins a session.</summary>
    public Session Begin(PersonView person, string where)
    {
        var id = new byte[16];
        random.GetBytes(id);
        var session = new Session(Convert.ToHexStringLower(id), person.Who, person.Stamp, where, time.GetUtcNow());
        open[session.Id] = session;
        Keep();
        return session;
    }

    /// <summary>A session that stands; null if it is over.</summary>
    public Session? Find(string id) =>
        open.TryGetValue(id, out var session) && !IsIdle(session) && IsStill(session) ? session : null;

    /// <summary>Notes that something was done.</summary>
    public void Touch(Session session) => session.Touch(time.GetUtcNow());

    /// <summary>Until when the session stands if nothing more is done.</summary>
    public DateTimeOffset Until(Session session) => session.LastActivity + Idle;

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

    /// <summary>Ends what is over: idle sessions, and those of people who were changed since.</summary>
    /// <returns>Those that ended because nothing was done.</returns>
    public IReadOnlyList<Session> Sweep()
    {
        var idle = open.Values.Where(IsIdle).Where(session => End(session.Id)).ToList();
        foreach (var session in open.Values.Where(session => !IsStill(session)))
        {
            End(session.Id);
        }

        Keep();
        return idle;
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

    private bool IsIdle(Session session) => time.GetUtcNow() - session.LastActivity > Idle;

    private bool IsStill(Session session) =>
        people.Find(session.Who) is { IsEnabled: true } person && person.Stamp == session.Stamp;

    private void Keep() => file.Write(open.Values);
}
