using System.Net.Sockets;
using System.Runtime.Versioning;
using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.CommandLine;
using PupilBridge.Desk;
using PupilBridge.Tests.Support;
using StreamJsonRpc;

namespace PupilBridge.Tests.Desk;

/// <summary>The local socket between commands and the running service, with a desk of its own.</summary>
public sealed class DeskSocketTests : IDisposable
{
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(20);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_call_reaches_the_service_and_its_answer_comes_back()
    {
        await using var listener = Listen();
        using var connection = await Connect();
        Assert.Equal(Environment.ProcessId, connection!.Service.Process);
        Assert.Equal("ding!", await connection.Desk.RingAsync("ding", default).WaitAsync(Deadline));
    }

    [Fact]
    public async Task A_stream_arrives_whole_and_in_order()
    {
        await using var listener = Listen();
        using var connection = await Connect();
        var seen = new List<int>();
        await foreach (var n in connection!.Desk.CountAsync(500, default))
        {
            seen.Add(n);
        }

        Assert.Equal(Enumerable.Range(1, 500), seen);
    }

    [Fact]
    public async Task A_fault_of_the_service_arrives_as_its_message_and_the_connection_goes_on()
    {
        await using var listener = Listen();
        using var connection = await Connect();
        var fault = await Assert.ThrowsAsync<RemoteInvocationException>(() => connection!.Desk.FailAsync());
        Assert.Equal("The bell is cracked.", fault.Message);
        Assert.Equal("ding!", await connection!.Desk.RingAsync("ding", default).WaitAsync(Deadline));
    }

    [Fact]
    public async Task Without_a_socket_there_is_no_connection() => Assert.Null(await Connect());

    [Fact]
    public async Task A_stale_socket_file_is_no_connection_and_is_replaced_by_the_next_service()
    {
        var path = Place.Prepare();
        using (var dead = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified))
        {
            dead.Bind(new UnixDomainSocketEndPoint(path));
        }

        // .NET removes the file when the socket is disposed of; a killed process does not.
        if (!File.Exists(path))
        {
            await File.WriteAllTextAsync(path, "");
        }

        Assert.Null(await Connect());
        await using var listener = Listen();
        using var connection = await Connect();
        Assert.NotNull(connection);
    }

    /// <summary>On Windows the folder's access list, inherited from the user's profile, does this.</summary>
    [Fact]
    [UnsupportedOSPlatform("windows")]
    public async Task Only_the_owner_can_reach_the_socket()
    {
        await using var listener = Listen();
        var path = Place.Find()!;
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        Assert.Equal(
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
            File.GetUnixFileMode(Path.GetDirectoryName(path)!)
        );
    }

    [Fact]
    public async Task A_data_folder_with_a_long_path_works_too()
    {
        var deep = folder.At(new string('d', 100), new string('e', 100));
        Directory.CreateDirectory(deep);
        var place = new DeskPlace(deep);
        var listener = DeskListener<IBell>.Start(place, new Bell(), new DeskLimits(), NullLogger.Instance);
        var elsewhere = place.Find()!;
        Assert.True(elsewhere.Length <= DeskPlace.MaxPathBytes, elsewhere);
        using (var connection = await DeskConnection<IBell>.TryOpenAsync(place, new DeskLimits(), default))
        {
            Assert.Equal("ding!", await connection!.Desk.RingAsync("ding", default).WaitAsync(Deadline));
        }

        await listener.DisposeAsync();
        Assert.False(Directory.Exists(Path.GetDirectoryName(elsewhere)));
    }

    [Fact]
    public async Task A_message_over_the_limit_ends_that_connection_only()
    {
        await using var listener = Listen(new DeskLimits { MaxRequestBytes = 2000 });
        using var greedy = await Connect();
        using var modest = await Connect();
        await Assert.ThrowsAsync<ConnectionLostException>(() =>
            greedy!.Desk.RingAsync(new string('x', 5000), default).WaitAsync(Deadline)
        );
        Assert.Equal("ding!", await modest!.Desk.RingAsync("ding", default).WaitAsync(Deadline));
    }

    [Fact]
    public async Task A_length_that_nobody_could_mean_is_refused_before_memory_is_taken()
    {
        await using var listener = Listen();
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        await socket.ConnectAsync(new UnixDomainSocketEndPoint(Place.Find()!));
        await socket.SendAsync(new byte[] { 0xFF, 0xFF, 0xFF, 0xFF, (byte)'{' });
        Assert.Equal(0, await socket.ReceiveAsync(new byte[1]).WaitAsync(Deadline));
    }

    [Fact]
    public async Task One_command_too_many_is_turned_away_with_a_message_and_a_place_becomes_free_again()
    {
        await using var listener = Listen(new DeskLimits { MaxClients = 1 });
        using (var first = await Connect())
        {
            var failure = await Assert.ThrowsAsync<CommandFailure>(Connect);
            Assert.Equal(ExitCode.NoService, failure.Code);
            Assert.Contains("connected already", failure.Message, StringComparison.Ordinal);
        }

        for (var tries = 0; ; tries++)
        {
            try
            {
                using var second = await Connect();
                Assert.Equal("ding!", await second!.Desk.RingAsync("ding", default).WaitAsync(Deadline));
                return;
            }
            catch (CommandFailure) when (tries < 200)
            {
                await Task.Delay(50);
            }
        }
    }

    [Fact]
    public async Task A_silent_connection_does_not_hold_a_place_for_ever()
    {
        await using var listener = Listen(new DeskLimits { HelloWithin = TimeSpan.FromMilliseconds(100) });
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        await socket.ConnectAsync(new UnixDomainSocketEndPoint(Place.Find()!));
        Assert.Equal(0, await socket.ReceiveAsync(new byte[1]).WaitAsync(Deadline));
    }

    [Fact]
    public async Task When_the_service_stops_a_waiting_command_hears_of_it()
    {
        var listener = Listen();
        using var connection = await Connect();
        await listener.DisposeAsync();
        await connection!.Ended.ContinueWith(_ => { }, TaskScheduler.Default).WaitAsync(Deadline);
        await Assert.ThrowsAnyAsync<Exception>(() => connection.Desk.RingAsync("ding", default));
        Assert.Null(Place.Find());
    }

    private DeskPlace Place => new(folder.Path);

    private DeskListener<IBell> Listen(DeskLimits? limits = null) =>
        DeskListener<IBell>.Start(Place, new Bell(), limits ?? new DeskLimits(), NullLogger.Instance);

    private Task<DeskConnection<IBell>?> Connect() =>
        DeskConnection<IBell>.TryOpenAsync(Place, new DeskLimits(), default);
}
