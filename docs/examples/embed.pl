# SPDX-License-Identifier: MIT
use strict;
use warnings;
use Ferrule;

my %worked = (
    hose => {inside => '12.7 mm', outside => '19.9 mm'},
    stem => {outside => '12.95 mm'},
    ferrule => {wall => '2.4 mm', outside => '25.6 mm'},
);
my %press = (graduation => '0.05 mm', opening => '25 mm');
my @rack = ('16 mm', '19 mm', {size => '22 mm', adapter => 1}, '25 mm');
my $setup = Ferrule::plan_setup({joint => \%worked, widest => '38 mm'}, \%press, \@rack);

print Ferrule::readiness_sentence($setup->readiness), "\n";
print 'target ', $setup->target->format('.2f mm'), ', ', $setup->plain->value->format('.1f %'), "\n";
print 'die ', $setup->die->die->size, ', dial ', $setup->dial->value->setting->format('.2f mm'), "\n";
print Ferrule::remark_severity($_), ': ', Ferrule::remark_sentence($_), "\n" for @{$setup->remarks};

$worked{stem} = {outside => '19.9 mm'};
unless (eval { Ferrule::crimp_diameter(\%worked, '20 %') }) {
    die $@ unless ref $@ && $@->isa('Ferrule::Error::Stem');
    print $@->name, "\n";
}
