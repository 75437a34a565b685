using System.Runtime.Versioning;

namespace PupilBridge.Ports.Tests;

[SupportedOSPlatform("linux")]
public sealed class PseudoTerminalLeavingTests
{
    private const int Rounds = 300;
    private const int Looks = 5000;
    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(20);

    /// <summary>
    /// The instrument talks on without a pause while hosts come and go: no host may read a word that was said while
    /// nobody was there. The instrument's own look at the device to throw such words away must not count as a host.
    /// </summary>
    [Fact]
    public async Task However_often_hosts_come_and_go_none_reads_what_was_said_to_nobody()
    {
        await using var instrument = new PseudoTerminal(TestLinks.Next());
        var opener = new PortOpeners(new PortSettings()).For(instrument.Address);
        for (var round = 0; round < Rounds; round++)
        {
            await using (await opener.OpenAsync())
            {
                await Eventually.Is(() => instrument.HasHost, () => "The instrument must see a host.");
            }

            var left = false;
            for (var look = 0; look < Looks || !left; look++)
            {
                var here = instrument.HasHost;
                Assert.False(here && left, $"In round {round} a host was seen after the only one had left.");
                left |= !here;
            }

            await instrument.WriteAsync("to nobody"u8.ToArray(), Deadline);

            await using var next = await opener.OpenAsync();
            await Eventually.Is(() => instrument.HasHost, () => "The instrument must see the next host.");
            await instrument.WriteAsync("x"u8.ToArray(), Deadline);
            var first = new byte[1];
            Assert.Equal(1, await next.ReadAsync(first));
            Assert.True(first[0] == (byte)'x', $"In round {round} the next host read '{(char)first[0]}'.");
        }
    }
}
