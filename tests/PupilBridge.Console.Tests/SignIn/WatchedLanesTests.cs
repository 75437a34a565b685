using System.Runtime.CompilerServices;
using System.Threading.Channels;
using Moq;
using PupilBridge.Clinic;
using PupilBridge.Clinic.People;
using PupilBridge.Clinic.Views;
using PupilBridge.Console.SignIn;
using PupilBridge.Console.Tests.SignIn.Support;

namespace PupilBridge.Console.Tests.SignIn;

/// <summary>The instrument's events keep a session going; a board that only shows the time go by does not.</summary>
public sealed class WatchedLanesTests : IDisposable
{
    private readonly SignInHouse house = new();
    private readonly Channel<LaneBoard> boards = Channel.CreateUnbounded<LaneBoard>();
    private readonly Mock<ILaneDesk> lanes = new();

    public WatchedLanesTests() =>
        lanes
            .Setup(desk => desk.WatchLaneAsync("QA-0001", It.IsAny<CancellationToken>()))
            .Returns((string _, CancellationToken stop) => boards.Reader.ReadAllAsync(stop));

    public void Dispose() => house.Dispose();

    [Fact]
    public async Task While_the_instrument_speaks_the_session_goes_on()
    {
        var (book, session) = await SessionAsync();
        await using var watched = Watch(book, session);
        await NextAsync(watched, Board(events: 1));
        house.Time.Advance(TimeSpan.FromMinutes(9));
        await NextAsync(watched, Board(events: 1));
        Assert.Equal(TimeSpan.FromMinutes(9), house.Time.GetUtcNow() - session.LastActivity);
        await NextAsync(watched, Board(events: 2));
        Assert.Equal(TimeSpan.Zero, house.Time.GetUtcNow() - session.LastActivity);
        house.Time.Advance(TimeSpan.FromMinutes(9));
        await NextAsync(watched, Board(events: 2, right: 4_000));
        Assert.Equal(TimeSpan.Zero, house.Time.GetUtcNow() - session.LastActivity);
        Assert.NotNull(book.Find(session.Id));
    }

    [Fact]
    public async Task When_the_session_is_over_so_is_the_stream()
    {
        var (book, session) = await SessionAsync();
        await using var watched = Watch(book, session);
        await NextAsync(watched, Board(events: 1));
        var waiting = watched.MoveNextAsync();
        book.End(session.Id);
        Assert.False(await waiting.AsTask().WaitAsync(TimeSpan.FromSeconds(60)));
    }

    [Fact]
    public async Task A_person_who_was_switched_off_sees_no_more()
    {
        var (book, session) = await SessionAsync();
        await using var watched = Watch(book, session);
        await NextAsync(watched, Board(events: 1));
        var waiting = watched.MoveNextAsync();
        await house.ChangeAsync("MK", new PersonChange(IsEnabled: false));
        book.Sweep();
        Assert.False(await waiting.AsTask().WaitAsync(TimeSpan.FromSeconds(60)));
    }

    private async Task<(SessionBook Book, Session Session)> SessionAsync()
    {
        await house.AddAsync("MK", ClinicRole.Examiner);
        var book = house.Service<SessionBook>();
        return (book, book.Begin(house.People.Find("MK")!, new SessionPlace("QA-0001")));
    }

    private IAsyncEnumerator<LaneBoard> Watch(SessionBook book, Session session) =>
        new WatchedLanes(lanes.Object, book, session)
            .WatchLaneAsync("QA-0001", CancellationToken.None)
            .GetAsyncEnumerator();

    private async Task NextAsync(IAsyncEnumerator<LaneBoard> watched, LaneBoard board)
    {
        await boards.Writer.WriteAsync(board);
        Assert.True(await watched.MoveNextAsync());
        Assert.Same(board, watched.Current);
    }

    /// <summary>A board of which only what is told here counts; all else is left out.</summary>
    private static LaneBoard Board(long events, int? right = null)
    {
        var eye = (LaneEye)RuntimeHelpers.GetUninitializedObject(typeof(LaneEye));
        var board = (LaneBoard)RuntimeHelpers.GetUninitializedObject(typeof(LaneBoard));
        return board with { ReceivedEvents = events, Right = eye with { PositionMicrometres = right }, Left = eye };
    }
}
